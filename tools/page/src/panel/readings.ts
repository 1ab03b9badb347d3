// Values that the reader clicked for, kept in a table.
import { type Context, factorWords } from "../data/quantities";
import { caseTitle } from "../data/summary";
import { placeText } from "../data/words";
import { h, section, table } from "../text/dom";
import type { Hit } from "../view/part";
import type { Viewer } from "./viewer";

const columns = [
  { title: "Place" }, { title: "x, y, z in mm", number: true }, { title: "Load case" }, { title: "Safety factor", number: true },
  { title: "Across the layers", number: true }, { title: "Between layers", number: true }, { title: "Movement", number: true },
];

export function readings(context: Context, viewer: Viewer): HTMLElement {
  const rows: string[][] = [];
  const place = h("div");
  const element = section("readings", "Values read from the part", place);
  element.hidden = true;
  const show = () => {
    element.hidden = rows.length === 0;
    place.replaceChildren(
      table(columns, rows.map((row) => [...row])),
      h("p", { class: "actions" },
        h("button", { type: "button", class: "link", click: () => void navigator.clipboard?.writeText(rows.map((row) => row.join("\t")).join("\n")) }, "Copy as table"),
        h("button", { type: "button", class: "link", click: () => { rows.length = 0; show(); } }, "Clear")));
  };
  viewer.onRead = async (hit: Hit) => {
    const loadCase = viewer.loadCase;
    const read = async (id: string) => {
      const quantity = viewer.quantities.find((other) => other.id === id)!;
      const value = hit.read(await quantity.values(loadCase));
      return id === "factor" ? factorWords(value) : quantity.text(value);
    };
    rows.push([
      viewer.placeWords(hit), placeText(hit.point.toArray()), caseTitle(context.summary.load_cases[loadCase]),
      await read("factor"), await read("across"), await read("between"), await read("movement"),
    ]);
    show();
  };
  return element;
}
