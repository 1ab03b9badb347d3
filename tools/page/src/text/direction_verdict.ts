// What the strongest direction is worth, beside the case's own.
import { angleBetween, type DirectionRow, type Directions, ownRow, strongestFirst } from "../data/directions";
import { factorText, factorWithRange, figures, rangeText, three, upText } from "../data/words";
import { h } from "./dom";

/** Not every way in which several prints go together was solved. */
function headlineOfPrints(value: number | null, low: number | null, target: number): [string, string] {
  if (value === null) return ["pass", "No limit was found with the strongest directions"];
  if (low === null || low >= target) return ["pass", "The strongest directions keep the margin you asked for"];
  if (value >= target) return ["marginal", "Even the strongest directions that were solved may fall short of the margin you asked for"];
  return ["fail", value < 1 ? "Expected to fail in all directions that were solved" : "No directions that were solved keep the margin you asked for"];
}

/** Whether the best direction of each print makes the strongest whole. */
function together(best: DirectionRow, rows: DirectionRow[]): string {
  const all = rows.find(({ name }) => name === "best of each");
  if (!all || factorText(all.safety_factor.value) === factorText(best.safety_factor.value)) return "";
  return `All prints in the best directions of their maps have ${factorWithRange(all.safety_factor)}: what one gains another may lose.`;
}

function headline({ value, low }: DirectionRow["safety_factor"], target: number, prints: number): [string, string] {
  if (prints > 1) return headlineOfPrints(value, low, target);
  if (value === null) return ["pass", "No limit was found in the strongest direction"];
  if (low === null || low >= target) return ["pass", "The strongest direction keeps the margin you asked for"];
  if (value >= target) return ["marginal", "Even the strongest direction may fall short of the margin you asked for"];
  return ["fail", value < 1 ? "Expected to fail, whichever way it is printed" : "No direction keeps the margin you asked for"];
}

/** The case's own direction beside the strongest. */
function beside(best: DirectionRow, own: DirectionRow): string {
  const words = `As in the case, ${upText(own.direction)}, the factor is ${factorWithRange(own.safety_factor)}`;
  if (best.safety_factor.value === null || own.safety_factor.value === null) return `${words}.`;
  const more = best.safety_factor.value / own.safety_factor.value - 1;
  return more < 0.02 ? `${words}: as good.` : `${words}; the strongest has ${figures(100 * more, 2)} % more.`;
}

export function directionVerdict(directions: Directions, show: (row: DirectionRow) => void): HTMLElement {
  const rows = strongestFirst(directions.directions);
  const [best, worst] = [rows[0], rows.at(-1)!];
  const own = ownRow(directions);
  const [standing, words] = headline(best.safety_factor, directions.target_safety_factor, directions.maps.length);
  const [map, ...others] = directions.maps;
  const among = map && !others.length ? `of ${map.directions} directions on the map` : `of the ${rows.length} that were ${map ? "solved" : "compared"}`;
  const calls = (row: DirectionRow) => (row.direction ? upText(row.direction) : row.name);
  const sketches = directions.maps.filter(({ within_tolerance }) => !within_tolerance);
  const angle = own && own !== best ? angleBetween(best.direction, own.direction) : null;
  const away = angle === null ? "" : `, ${figures(angle, 2)}\u00b0 from the direction in the case`;
  const sentences = [
    best === own ? `The direction in the case, ${upText(best.direction)}, is the strongest ${among}.`
      : `The strongest ${among}: ${calls(best)}${away}.`,
    together(best, rows),
    own && own !== best ? beside(best, own) : "",
    worst !== best ? `The weakest, ${calls(worst)}, has ${factorWithRange(worst.safety_factor)}.` : "",
  ];
  const under = [rangeText(best.safety_factor), `asked for ${three(directions.target_safety_factor)}`].filter(Boolean);
  const value = best.safety_factor.value;
  return h("div", { class: "verdict" }, h("div", { class: `answer ${standing}` },
    h("div", { class: "figure" },
      h("p", { class: value === null ? "big none" : "big", id: "factor" }, factorText(value)),
      h("p", { class: "range", id: "range" }, ...under.map((text) => h("span", {}, text)))),
    h("div", {},
      h("p", { class: "headline" }, words),
      h("p", { class: "sentence", id: "sentence" }, sentences.filter(Boolean).join(" ")),
      sketches.length
        ? h("p", { class: "sentence", id: "sketch" }, `Take the map${others.length ? ` of ${sketches.map(({ print }) => print).join(" and of ")}` : ""} as a sketch: it may be off by more than was asked for. The directions that were solved are results.`) : null,
      h("button", { type: "button", class: "link", click: () => show(best) }, "See how it stands"))));
}
