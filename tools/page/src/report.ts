// The report of a run, from top to bottom.
import { readJson } from "./data/blocks";
import { Fields } from "./data/fields";
import type { Context } from "./data/quantities";
import { readSolid } from "./data/solid";
import { type About, type Summary, worstPlaces } from "./data/summary";
import type { Vector } from "./data/vector";
import { percent, three } from "./data/words";
import { controls } from "./panel/controls";
import { readings } from "./panel/readings";
import { type Standing, standing } from "./panel/standing";
import { themeButton } from "./panel/theme";
import { Viewer } from "./panel/viewer";
import { cautions, forces, rerun } from "./text/closing";
import { constants } from "./text/constants";
import { h, section } from "./text/dom";
import { handCalculation } from "./text/hand";
import { jointSection } from "./text/joint";
import { materials } from "./text/materials";
import { loadCases, pressures, pressureText } from "./text/pressures";
import { trust } from "./text/trust";
import { verdict } from "./text/verdict";
import { ways } from "./text/ways";

async function makeViewer(summary: Summary, about: About): Promise<{ viewer: Viewer; context: Context } | null> {
  try {
    const solid = await readSolid(about.arrays, about.middles);
    const context = { summary, about, solid, fields: new Fields(solid, about.arrays, about.sums) };
    return { viewer: new Viewer(context), context };
  } catch (problem) {
    // The words and tables stand without a picture.
    console.warn(problem instanceof Error ? problem.message : problem);
    return null;
  }
}

function roundingWords({ fields, about, summary }: Context): string {
  const governing = about.governing_case;
  const stresses = ["xx", "yy", "zz", "xy", "yz", "xz"].map((name) => fields.rounding(governing, name));
  const factors = 2 ** fields.rounding(governing, "log2_factor") - 1;
  const { name, per_MPa } = about.pressure_unit;
  return `In the coloured view factors are rounded to ${percent(factors)}, stress components of the governing load case to \u00b1 ${three(Math.max(...stresses) * per_MPa)} ${name}` +
    `${about.middles ? "" : ", and only values at the corners of elements are shown"}. Numbers in the text are the program's own (${summary.load_cases.length} load cases).`;
}

function faceWords(about: About): (face: number | null) => string {
  return (face) => (face === null ? "inside the body" : about.faces[face - 1] ?? `face ${face}`);
}

export async function report(): Promise<void> {
  const summary = readJson<Summary>("summary");
  const about = readJson<About>("page");
  document.title = summary.title;
  const made = await makeViewer(summary, about);
  const viewer = made?.viewer ?? null;
  const wordsFor = (mode: string) => about.modes.find((other) => other.name === mode)?.words ?? mode;
  const text = pressureText(about);
  const governing = summary.load_cases[about.governing_case];
  const places = worstPlaces(governing);
  const toView = (place: Vector) => {
    viewer?.show(place);
    viewer?.frame.scrollIntoView({ block: "center", behavior: "smooth" });
  };
  // Made once the first picture is there, which would wait for it.
  let plate: Standing | null = null;
  const platePlace = h("div", { hidden: true });
  const caption = h("p", { class: "printed caption" });
  const header = h("header", {},
    h("h1", {}, summary.title),
    h("p", {}, summary.bodies.map((body) => `${body.name}: ${body.material.title}`).join("; ")),
    h("nav", { "aria-label": "Page" },
      h("button", { type: "button", class: "plain", click: () => window.print() }, "Print"),
      themeButton(() => {
        viewer?.themeChanged();
        plate?.themeChanged();
      })));
  const main = h("main", {},
    verdict(summary, viewer && places.length ? () => toView(places[0].position_mm) : null),
    viewer && made
      ? h("div", { class: "workbench" }, h("div", {}, viewer.frame, caption, viewer.legendPlace), controls(made.context, viewer))
      : h("p", { class: "fine" }, "This browser shows no three-dimensional view (it offers no WebGL); everything else is below."),
    viewer && made ? readings(made.context, viewer) : null,
    section("ways", "What would give way first", ways(summary, { judged: governing?.safety_factor ?? null, onPressure: governing?.pressure_factor ?? null, places, wordsFor, faceWords: faceWords(about), show: viewer ? ({ position_mm }) => toView(position_mm) : null })),
    constants(summary, about),
    jointSection(summary, about, viewer ? toView : null),
    platePlace,
    pressures(summary, text),
    handCalculation(summary, text),
    trust(summary, made ? roundingWords(made.context) : ""),
    loadCases(summary, text, wordsFor),
    forces(summary),
    materials(summary, text),
    cautions(summary),
    rerun(summary));
  document.body.append(header, main);
  if (!viewer || !made) return;
  addEventListener("beforeprint", () => {
    viewer.takePicture();
    plate?.takePicture();
    caption.textContent = viewer.caption();
    document.querySelectorAll("details").forEach((details) => (details.open = true));
  });
  await viewer.start();
  plate = await standing(made.context);
  if (!plate) return;
  platePlace.replaceWith(plate.element);
  plate.start();
}
