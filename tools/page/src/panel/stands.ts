// Where to look from, by a button each.
import { h } from "../text/dom";

/** Azimuth about z from the x axis, and elevation above the plate [rad]. */
export type Stand = readonly [number, number];

export const stands = {
  Corner: [-Math.PI / 3, 0.45],
  Front: [-Math.PI / 2, 0],
  Side: [0, 0],
  Top: [-Math.PI / 2, Math.PI / 2],
  Below: [-Math.PI / 2, -Math.PI / 2],
} satisfies Record<string, Stand>;

export function standButtons(chosen: (stand: Stand) => void): HTMLElement {
  const buttons = Object.entries(stands).map(([name, stand]) =>
    h("button", { type: "button", class: "plain", click: () => chosen(stand as Stand) }, name));
  return h("div", { class: "stands", role: "group", "aria-label": "Look from" }, ...buttons);
}
