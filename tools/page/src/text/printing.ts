// What printing in a direction asks, in numbers of the program.
import type { Print } from "../data/plate";
import { three } from "../data/words";
import { h } from "./dom";

/** Areas and heights in the order of the tables. */
export const printColumns = [
  ["Height, mm", "height_mm"],
  ["Shadow, mm\u00b2", "footprint_mm2"],
  ["On the plate, mm\u00b2", "plate_contact_mm2"],
  ["Overhang, mm\u00b2", "overhang_mm2"],
  ["Of it inside, mm\u00b2", "trapped_overhang_mm2"],
] as const;

export const printFacts = (print: Print): HTMLElement[] =>
  printColumns.map(([title, key]) => h("div", {}, h("dt", {}, title), h("dd", { "data-key": key }, three(print[key]))));

/** What counts as overhang. */
export const overhangWords = (angle_deg: number): string =>
  `Overhang is surface that looks down at less than ${three(angle_deg)}\u00b0 from horizontal, what lies on the plate left out. Inside: in cavities, where support is hard or impossible to remove.`;
