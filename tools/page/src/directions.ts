// The page of print directions, from top to bottom.
import { readJson } from "./data/blocks";
import { type AboutDirections, type Chosen, type DirectionRow, type Directions, ownRow, type PrintMap, strongestFirst, upOf } from "./data/directions";
import { readSurface } from "./data/surface";
import { bodyChoice } from "./panel/body_choice";
import { DirectionMap } from "./panel/direction_map";
import { PlateView } from "./panel/plate_view";
import { sectionRow } from "./panel/section_row";
import { themeButton } from "./panel/theme";
import { rerunLine } from "./text/closing";
import { DirectionReading } from "./text/direction_reading";
import { solvedList, solvedTables, TradeOffs } from "./text/direction_tables";
import { directionVerdict } from "./text/direction_verdict";
import { h, section } from "./text/dom";

async function makeView(about: AboutDirections): Promise<PlateView | null> {
  try {
    const surface = await readSurface(about.arrays, (face) => about.plate.body_of_face[face - 1]);
    return new PlateView(about.plate, surface, (face) => about.faces[face - 1]);
  } catch (problem) {
    // The words, the map and the tables stand without a picture.
    console.warn(problem instanceof Error ? problem.message : problem);
    return null;
  }
}

function closing(about: AboutDirections): HTMLElement {
  const files = ["directions.md", "directions.csv", "directions.json", ...about.maps.flatMap(({ files }) => [`${files}.csv`, `${files}.svg`])];
  const spheres = about.maps.map(({ files }) => `${files}.vtp`).join(", ");
  return section("rerun", "To run it again", rerunLine("directions", about.case_file),
    h("p", { class: "fine" }, `Beside this page: ${files.join(", ")}${spheres ? `; for a VTK viewer ${spheres}` : ""}.`));
}

/** What the page shows of one print's map. */
function printMap(of: PrintMap, told: Directions, position: number) {
  const { print, own_factors } = told.maps[position];
  const name = told.maps.length > 1 ? ` of ${print}` : "";
  const map = new DirectionMap(of, told.directions, own_factors.map(({ row }) => row), told.target_safety_factor);
  const tradeOffs = new TradeOffs(of.nodes, position, name);
  const reliance = section(`reliance${position || ""}`, `How far to rely on the map${name}`,
    h("p", { class: "lead" }, `${of.reliance} Only the directions that were solved fully are results.`));
  return { of, map, tradeOffs, reliance, parts: [map.element, map.words, tradeOffs.element, reliance] };
}

function frozenJoint(about: AboutDirections): HTMLElement {
  return section("joint", "Where the joint is not as on the maps",
    h("p", { class: "lead" }, "On the maps the joint answers as it does in the case; what was solved has it free."),
    h("ul", {}, ...about.joint.map(({ row, words }) => h("li", {}, h("strong", {}, row), `: ${words}`))));
}

export async function directions(): Promise<void> {
  const told = readJson<Directions>("directions");
  const about = readJson<AboutDirections>("page");
  document.title = `Print directions: ${told.title}`;
  const view = await makeView(about);
  const reading = new DirectionReading(about, ownRow(told));
  const best = strongestFirst(told.directions)[0];
  let chosen: Chosen = { row: best };
  let body = about.plate.bodies[0];
  const maps = about.maps.map((of, i) => printMap(of, told, i));
  const choose = (next: Chosen, at_once = false) => {
    chosen = next;
    view?.stand(upOf(chosen, body), at_once);
    for (const { of, map, tradeOffs } of maps) {
      map.mark(upOf(chosen, about.plate.bodies.find(({ id }) => id === of.bodies[0])!));
      tradeOffs.mark(chosen);
    }
    reading.show(chosen, body);
  };
  const toView = () => view?.frame.scrollIntoView({ block: "nearest", behavior: "smooth" });
  const showRow = (row: DirectionRow) => {
    choose({ row });
    toView();
  };
  /** Of the print that the body is of. */
  const showMap = () => {
    if (!maps.some(({ of }) => of.bodies.includes(body.id))) return;
    for (const { of, parts } of maps) for (const part of parts) part.hidden = !of.bodies.includes(body.id);
  };
  for (const { of, map, tradeOffs } of maps) {
    map.onRow = (row) => choose({ row });
    map.onChoose = (node) => choose({ node, map: of });
    tradeOffs.onShow = (node) => {
      choose({ node, map: of });
      toView();
    };
  }
  const caption = h("p", { class: "printed caption" });
  const other = (position: number) => {
    body = about.plate.bodies[position];
    view?.setBody(body.id);
    showMap();
    choose(chosen, true);
  };
  document.body.append(
    h("header", {},
      h("h1", {}, told.title), h("p", {}, "print directions"),
      h("nav", { "aria-label": "Page" },
        h("button", { type: "button", class: "plain", click: () => window.print() }, "Print"),
        themeButton(() => view?.themeChanged()))),
    h("main", {},
      directionVerdict(told, showRow),
      h("div", { class: "workbench turning" },
        view
          ? h("div", { class: "standing" }, view.frame, caption, view.legendPlace, reading.facts, sectionRow("cut", (cut, share) => view.setCut(cut, share)), bodyChoice(about.plate, "body", other))
          : h("div", { class: "standing" }, h("p", { class: "fine" }, "This browser shows no three-dimensional view (it offers no WebGL); everything else is here."), reading.facts, bodyChoice(about.plate, "body", other)),
        h("div", { class: "choosing" }, reading.head, ...maps.map(({ map }) => map.element), solvedList(told.directions, (row) => choose({ row })), ...maps.map(({ map }) => map.words))),
      solvedTables(told.directions, about, showRow),
      ...maps.map(({ tradeOffs }) => tradeOffs.element),
      ...maps.map(({ reliance }) => reliance),
      about.joint.length ? frozenJoint(about) : null,
      closing(about)));
  showMap();
  choose(chosen, true);
  if (!view) return;
  addEventListener("beforeprint", () => {
    view.takePicture();
    caption.textContent = view.caption();
  });
  view.start();
}
