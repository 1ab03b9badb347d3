// A section across one of the part's axes, chosen under a view.
import { h } from "../text/dom";
import { radio, slider } from "./controls";
import type { Cut } from "./section_plane";

/** @param name  of its buttons, one a page. */
export function sectionRow(name: string, setCut: (cut: Cut, share: number) => void): HTMLElement {
  let cut: Cut = "off";
  const place = slider("Place of the section", -1, 1, (share) => setCut(cut, share));
  const choose = (axis: Cut) => {
    cut = axis;
    place.value = "0";
    place.disabled = axis === "off";
    setCut(cut, 0);
  };
  place.disabled = true;
  const names = { off: "Off", x: "x", y: "y", z: "z" } as const;
  return h("fieldset", { class: "below" }, h("legend", {}, "Look inside: section"),
    h("div", { class: "row" }, ...Object.entries(names).map(([axis, text]) => radio(name, text, axis === "off", () => choose(axis as Cut)))), place);
}
