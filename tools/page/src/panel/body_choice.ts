// Which body stands on the plate; nothing where there is only one.
import type { PlateRules } from "../data/plate";
import { h } from "../text/dom";
import { radio } from "./controls";

export function bodyChoice(rules: PlateRules, name: string, chosen: (position: number) => void): HTMLElement | null {
  if (rules.bodies.length < 2) return null;
  return h("fieldset", { class: "below" }, h("legend", {}, "Body, each printed for itself"),
    h("div", { class: "row" }, ...rules.bodies.map((body, i) => radio(name, body.name, i === 0, () => chosen(i)))));
}
