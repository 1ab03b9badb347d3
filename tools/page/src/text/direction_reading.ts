// What is known of the direction that is looked at.
import { type AboutDirections, angleBetween, type Chosen, type DirectionRow, type PrintedBody, printOf, upOf } from "../data/directions";
import { capital, factorText, figures, percent, rangeText, upText } from "../data/words";
import { h } from "./dom";
import { printFacts } from "./printing";

function authority(chosen: Chosen): string {
  if ("node" in chosen) return chosen.node.factor === null ? "read from the map" : `read from the map, which may be ${percent(chosen.node.error)} off`;
  const range = rangeText(chosen.row.safety_factor);
  return `solved${range ? `, ${range}` : ""}`;
}

export class DirectionReading {
  /** The direction and its factor. */
  readonly head = h("div", { class: "reading", id: "reading", role: "status" });
  /** What gives way, what it asks of the printer. */
  readonly facts = h("dl", { class: "facts", id: "facts" });

  constructor(
    private readonly about: AboutDirections,
    private readonly own: DirectionRow | null,
  ) {}

  /** @param body  that is looked at. */
  show(chosen: Chosen, body: PrintedBody): void {
    const factor = "row" in chosen ? chosen.row.safety_factor.value : chosen.node.factor;
    const mode = "row" in chosen ? chosen.row.governing?.mode : chosen.node.mode;
    const up = upOf(chosen, body);
    const own = this.own && (this.own.direction ?? body.print_direction ?? null);
    const angle = this.own && "row" in chosen && chosen.row === this.own ? null : angleBetween(up, own);
    const shared = "row" in chosen ? chosen.row.direction !== null : this.about.maps.length === 1;
    const whose = shared ? "" : `${body.name}: `;
    const away = angle === null ? "" : `, ${figures(angle, 2)}\u00b0 from the direction in the case`;
    const print = printOf(chosen);
    this.head.replaceChildren(
      h("h2", {}, "row" in chosen ? capital(chosen.row.name) : this.about.maps.length === 1 ? "A direction of the map" : `A direction of the map of ${chosen.map.print}`),
      h("p", {}, h("strong", { id: "reading-factor" }, factorText(factor)), h("span", {}, authority(chosen))),
      h("p", { class: "fine" }, capital(`${whose}${upText(up)}${away}`)));
    const words = mode ? this.about.modes.find(({ name }) => name === mode)?.words ?? mode : "no limit found";
    this.facts.replaceChildren(
      ...printFacts(print),
      h("div", { class: "wide" }, h("dt", {}, "First to give way"), h("dd", {}, capital(words))));
  }
}
