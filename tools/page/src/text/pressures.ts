// What pressure may it see, and the load cases one by one.
import { type About, caseTitle, type Judgement, type LoadCase, type Summary } from "../data/summary";
import { capital, factorText, figures, ownError, rangeText, three } from "../data/words";
import { h, list, section, table } from "./dom";

export type PressureText = (pressure: number | null) => string;

export const pressureText = ({ pressure_unit: { name, per_MPa } }: Pick<About, "pressure_unit">): PressureText => (pressure) =>
  pressure === null ? "no limit found" : `${figures(pressure * per_MPa, 4)} ${name}`;

export function pressures(summary: Summary, text: PressureText): HTMLElement | null {
  if (summary.working_pressure_MPa === null) return null;
  const entry = (id: string, name: string, value: number | null) =>
    h("div", {}, h("dt", {}, name), h("dd", { id }, text(value)));
  const energy = summary.stored_energy_J;
  const facts = [
    summary.allowable_limited_by ? `What sets the allowable pressure: ${summary.allowable_limited_by}.` : "",
    summary.proof_statement,
    energy ? `Stored energy at the working pressure: ${three(energy.total)} J (fluid ${three(energy.fluid)}, wall ${three(energy.wall)}, air left in ${three(energy.unbled_air)}).` : "",
    summary.buckling.statement,
  ];
  return section("pressures", "What pressure may it see?",
    h("dl", { class: "figures" },
      entry("working", "working", summary.working_pressure_MPa),
      entry("allowable", "allowable", summary.allowable_pressure_MPa),
      summary.proof_pressure_MPa === null ? null : entry("proof", summary.proof_breaks_limit ? "proof, at most" : "proof", summary.proof_pressure_MPa)),
    list(facts.filter(Boolean)));
}

export function loadCases(summary: Summary, text: PressureText, wordsFor: (mode: string) => string): HTMLElement {
  const first = (loadCase: LoadCase) => {
    const modes = Object.values(loadCase.safety_factor.modes).filter((mode) => mode.value === loadCase.safety_factor.value);
    return modes.length && modes[0].value !== null ? capital(wordsFor(modes[0].mode)) : "\u2013";
  };
  const judged = (judgement: Judgement) => [factorText(judgement.value), ownError(judgement), rangeText(judgement) && `(${rangeText(judgement)})`].filter(Boolean).join(" ");
  return section("cases", "Load case by load case",
    h("p", { class: "lead" }, "A factor multiplies the loads: all of them, or pressures and forces alone with preload, weight and temperature held as they are. \u00b1 is what the mesh may be off by, in brackets stands the range of estimated constants."),
    table(
      [{ title: "Load case" }, { title: "First to give way" }, { title: "Factor", number: true }, { title: "On pressure alone", number: true },
        { title: "Allowable", number: true }, { title: "Moves, mm", number: true }],
      summary.load_cases.map((loadCase) => [
        caseTitle(loadCase),
        first(loadCase),
        judged(loadCase.safety_factor),
        loadCase.pressure_factor.applies ? judged(loadCase.pressure_factor) : "\u2013",
        loadCase.allowable_pressure_MPa === null ? "\u2013" : text(loadCase.allowable_pressure_MPa),
        three(loadCase.displacement_max_mm),
      ])),
    ...summary.load_cases.flatMap((loadCase) => (loadCase.distrust.length ? [list(loadCase.distrust)] : [])));
}
