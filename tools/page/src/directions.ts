// The page of print directions, from top to bottom.
import { readJson } from "./data/blocks";
import { type AboutDirections, type Chosen, type DirectionRow, type Directions, type MapNode, ownRow, strongestFirst, upOf } from "./data/directions";
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
  const files = ["directions.md", "directions.csv", "directions.json", ...(about.map ? ["directions_map.csv", "directions_map.svg"] : [])];
  return section("rerun", "To run it again", rerunLine("directions", about.case_file),
    h("p", { class: "fine" }, `Beside this page: ${files.join(", ")}${about.map ? "; for a VTK viewer directions_map.vtp" : ""}.`));
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
  const choose = (next: Chosen, at_once = false) => {
    chosen = next;
    const up = upOf(chosen, body.print_direction!);
    view?.stand(up, at_once);
    map?.mark(up);
    reading.show(chosen);
    tradeOffs?.mark(chosen);
  };
  const toView = () => view?.frame.scrollIntoView({ block: "nearest", behavior: "smooth" });
  const showRow = (row: DirectionRow) => {
    choose({ row });
    toView();
  };
  const map = about.map ? new DirectionMap(about.map.nodes, told.directions, told.target_safety_factor, (row) => choose({ row })) : null;
  if (map) map.onChoose = (node) => choose({ node });
  const showNode = (node: MapNode) => {
    choose({ node });
    toView();
  };
  const tradeOffs = about.map ? new TradeOffs(about.map.nodes, showNode) : null;
  const caption = h("p", { class: "printed caption" });
  const other = (position: number) => {
    body = about.plate.bodies[position];
    view?.setBody(body.id);
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
          : h("div", { class: "standing" }, h("p", { class: "fine" }, "This browser shows no three-dimensional view (it offers no WebGL); everything else is here."), reading.facts),
        h("div", { class: "choosing" }, reading.head, map ? map.element : null, solvedList(told.directions, (row) => choose({ row })), map ? map.words : null)),
      solvedTables(told.directions, about, showRow),
      tradeOffs ? tradeOffs.element : null,
      about.map ? section("reliance", "How far to rely on the map",
        h("p", { class: "lead" }, `${about.map.reliance} Only the directions that were solved fully are results.`)) : null,
      closing(about)));
  choose(chosen, true);
  if (!view) return;
  addEventListener("beforeprint", () => {
    view.takePicture();
    caption.textContent = view.caption();
  });
  view.start();
}
