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

/** What to type. */
export function rerunLine(command: string, file: string): HTMLElement {
  const word = /^[\w./-]+$/.test(file) ? file : `'${file.replaceAll("'", `'\\''`)}'`;
  return h("pre", { tabindex: 0 }, h("code", {}, `crossgrain ${command} ${word}`));
}

export function rerun(summary: Summary): HTMLElement {
  return section("rerun", "To run it again",
    rerunLine("run", summary.case_file),
    h("details", {}, h("summary", {}, "What was asked"),
      table([{ title: "Setting" }, { title: "Value" }], summary.settings.map(({ name, value }) => [name, value]))),
    h("p", { class: "fine", id: "files" }, `Crossgrain ${summary.program_version}. ${files(summary)}`));
}

/** What the run wrote beside this page. */
function files({ joint }: Summary): string {
  return `Beside this page: to read, summary.md; for scripts, summary.json${joint ? " and joint.csv" : ""}; in a VTK viewer, in full precision, ` +
    `fields.vtu and faces.vtp${joint ? " and, of the joint, joint.vtp" : ""} of the governing load case, fields.pvd and faces.pvd${joint ? " and joint.pvd" : ""} of all` +
    `${joint ? "; the screws' forces from state to state, joint_forces.svg" : ""}.`;
}
