// Forces, cautions, and how to run it again.
import type { Summary } from "../data/summary";
import { figures } from "../data/words";
import { h, list, section, table } from "./dom";

const size = (force: number[]): string => figures(Math.hypot(...force), 4);
const parts = (force: number[]): string => force.map((x) => figures(Math.abs(x) < 0.05 ? 0 : x, 4)).join(", ");

export function forces(summary: Summary): HTMLElement | null {
  if (summary.openings.length + summary.reactions.length === 0) return null;
  return section("forces", "Forces to be held",
    summary.openings.length ? table(
      [{ title: "Opening" }, { title: "Pressure" }, { title: "Thrust, N", number: true }, { title: "Carried by" }],
      summary.openings.map((o) => [o.opening, o.pressure, size(o.thrust_N), o.carried_by])) : null,
    summary.reactions.length ? table(
      [{ title: "Support" }, { title: "Load case" }, { title: "Force x, y, z, N", number: true }],
      summary.reactions.map((r) => [r.support, r.load_case, parts(r.force_N)])) : null);
}

export const cautions = (summary: Summary): HTMLElement =>
  section("cautions", "Before anyone stands beside it", list(summary.cautions));

export function rerun(summary: Summary): HTMLElement {
  const word = /^[\w./-]+$/.test(summary.case_file) ? summary.case_file : `'${summary.case_file.replaceAll("'", `'\\''`)}'`;
  return section("rerun", "To run it again",
    h("pre", { tabindex: 0 }, h("code", {}, `crossgrain run ${word}`)),
    h("details", {}, h("summary", {}, "What was asked"),
      table([{ title: "Setting" }, { title: "Value" }], summary.settings.map(({ name, value }) => [name, value]))),
    h("p", { class: "fine" }, `Crossgrain ${summary.program_version}. The same for scripts: summary.json. In full precision: fields.pvd, faces.pvd.`));
}
