// What the reader came for: holds or not, one number with its range, where.
import { type Range, type Summary, worseOf } from "../data/summary";
import { factorText, figures, rangeText, three } from "../data/words";
import { h, list } from "./dom";

function headline(summary: Summary, { value, low }: Range): string {
  switch (summary.verdict) {
    case "pass":
      return "Holds, with the margin you asked for";
    case "marginal":
      return low !== null && low < summary.target_safety_factor ? "May fall short of the margin you asked for" : "Not a plain pass";
    case "fail":
      return value !== null && value < 1 ? "Expected to fail" : "Falls short of the margin you asked for";
    default:
      return "Do not rely on these numbers";
  }
}

export function verdict(summary: Summary, seePlace: (() => void) | null): HTMLElement {
  const factor = worseOf(summary.safety_factor, summary.pressure_factor);
  const range = rangeText(factor);
  const error = summary.safety_factor_mesh_error;
  const target = three(summary.target_safety_factor);
  const under = [range ? `${range}` : "", error !== null ? `mesh \u00b1 ${figures(error, 2)}` : "", `asked for ${target}`];
  const number = factor.value === null
    ? h("p", { class: "big none" }, factorText(null))
    : h("p", { class: "big", id: "factor" }, three(factor.value));
  const gas = summary.warnings.filter((warning) => warning.startsWith("GAS"));
  const other = summary.warnings.filter((warning) => !warning.startsWith("GAS"));
  return h("div", { class: "verdict" },
    ...gas.map((warning) => h("p", { class: "danger", role: "alert" }, warning)),
    h("div", { class: `answer ${summary.verdict}` },
      h("div", { class: "figure" }, number, h("p", { class: "range", id: "range" }, h("span", { class: "what" }, "safety factor"), ...under.filter(Boolean).map((text) => h("span", {}, text)))),
      h("div", {},
        h("p", { class: "headline" }, headline(summary, factor)),
        h("p", { class: "sentence", id: "sentence" }, summary.verdict_sentence),
        seePlace && summary.governing ? h("button", { type: "button", class: "link", click: seePlace }, "See the place") : null,
        summary.distrust.length ? list(summary.distrust) : null,
        other.length ? list(other) : null)));
}
