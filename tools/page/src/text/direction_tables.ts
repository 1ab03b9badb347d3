// Directions side by side: those that were solved, and those of the map that no other beats.
import { type AboutDirections, type Chosen, type DirectionRow, type MapNode, strongestFirst } from "../data/directions";
import { capital, directionText, factorText, figures, rangeText, three } from "../data/words";
import { type Column, h, section, table } from "./dom";
import { pressureText } from "./pressures";
import { overhangWords, printColumns } from "./printing";

const fewest = 12;

/** "#1 best", a button that shows it. */
function nameOf(row: DirectionRow, number: number, show: (row: DirectionRow) => void): HTMLElement {
  return h("span", { class: "numbered" }, h("span", { class: "pin-label", "aria-hidden": "true" }, String(number)),
    h("button", { type: "button", class: "link", click: () => show(row) }, row.name));
}

const meshError = ({ safety_factor, safety_factor_mesh_error }: DirectionRow): string =>
  safety_factor.value === null ? "\u2013" : safety_factor_mesh_error === null ? "?" : figures(safety_factor_mesh_error, 2);

/** Short, beside the view. */
export function solvedList(all: DirectionRow[], show: (row: DirectionRow) => void): HTMLElement {
  return h("ol", { class: "solved", "aria-label": "Directions that were solved" }, ...strongestFirst(all).map((row, i) =>
    h("li", {}, nameOf(row, i + 1, show), h("strong", {}, factorText(row.safety_factor.value)))));
}

export function solvedTables(all: DirectionRow[], about: AboutDirections, show: (row: DirectionRow) => void): HTMLElement {
  const rows = strongestFirst(all);
  const text = pressureText(about);
  const wordsFor = (mode: string) => about.modes.find(({ name }) => name === mode)?.words ?? mode;
  const place = ({ governing }: DirectionRow) =>
    governing && governing.value !== null
      ? `${capital(wordsFor(governing.mode))}, ${governing.face === null ? "inside the body" : about.faces[governing.face - 1]}` : "\u2013";
  return section("solved", "Directions that were solved",
    h("p", { class: "lead" }, "Strongest first. Up is from the plate to the nozzle, in the STEP file's axes; \u00b1 is what the mesh may make of a factor, as estimated, and the range that of estimated constants."),
    table(
      [{ title: "Print direction" }, { title: "Up" }, { title: "Factor", number: true }, { title: "\u00b1 mesh", number: true }, { title: "Range", number: true },
        { title: "Allowable", number: true }, { title: "Moves, mm", number: true }, { title: "First to give way" }],
      rows.map((row, i) => [nameOf(row, i + 1, show), h("span", { class: "up" }, row.direction ? directionText(row.direction) : row.of_bodies.map(({ name, direction }) => `${name} ${directionText(direction)}`).join(", ")), factorText(row.safety_factor.value), meshError(row), rangeText(row.safety_factor) || "\u2013",
        row.allowable_pressure_MPa === null ? "\u2013" : text(row.allowable_pressure_MPa), three(row.displacement_max_mm), place(row)])),
    h("h3", {}, "What printing them asks"),
    table(
      [{ title: "Print direction" }, ...printColumns.map(([title]) => ({ title, number: true }))],
      rows.map((row, i) => [nameOf(row, i + 1, show), ...printColumns.map(([, key]) => three(row[key]))])),
    h("p", { class: "fine" }, overhangWords(about.plate.overhang_angle_deg), about.plate.bodies.length > 1 ? " Every body is printed for itself: heights are the greatest, areas the sum." : null));
}

type Key = "factor" | (typeof printColumns)[number][1];

const valueOf = (node: MapNode, key: Key): number => (key === "factor" ? -(node.factor ?? Infinity) : node.print[key]);

/** So many, evenly from the first to the last. */
function some<T>(items: T[], count: number): T[] {
  if (items.length <= count) return items;
  return Array.from({ length: count }, (_, i) => items[Math.round((i * (items.length - 1)) / (count - 1))]);
}

/** The directions of the map that no other beats, a few of them or all, ordered by any column. */
export class TradeOffs {
  readonly element: HTMLElement;
  private readonly place = h("div", {});
  private readonly unbeaten: MapNode[];
  private key: Key = "factor";
  private all = false;
  private shown: MapNode[] = [];
  private chosen: Chosen | null = null;

  onShow: (node: MapNode) => void = () => {};

  /** @param name  of its print, where there are several: " of lid". */
  constructor(nodes: MapNode[], position: number, name: string) {
    this.unbeaten = nodes.filter((node) => node.unbeaten);
    this.element = section(`trade-offs${position || ""}`, `What strength costs the printer${name}`,
      h("p", { class: "lead" }, `${this.unbeaten.length} of ${nodes.length} directions are beaten by no other in every column: whichever way you turn from one of these, something gets worse. Of a direction and its opposite, which are equally strong, the one with less overhang is meant. A column's title puts its best first.`),
      this.place);
    this.fill();
  }

  mark(chosen: Chosen): void {
    this.chosen = chosen;
    const rows = this.place.querySelectorAll("tbody tr");
    this.shown.forEach((node, i) => {
      const current = "node" in chosen && chosen.node === node;
      if (current) rows[i].setAttribute("aria-current", "true");
      else rows[i].removeAttribute("aria-current");
    });
  }

  private fill(): void {
    const ordered = [...this.unbeaten].sort((a, b) => valueOf(a, this.key) - valueOf(b, this.key));
    this.shown = this.all ? ordered : some(ordered, fewest);
    const column = (title: string, key: Key): Column => ({
      title, number: true, order: () => { this.key = key; this.fill(); },
      ordered: key === this.key ? (key === "factor" ? "descending" : "ascending") : undefined,
    });
    const more = this.unbeaten.length > fewest
      ? h("p", { class: "actions" }, h("button", { type: "button", class: "link", click: () => { this.all = !this.all; this.fill(); } },
          this.all ? `Show ${fewest} of them` : `Show all ${this.unbeaten.length}`))
      : null;
    this.place.replaceChildren(
      table(
        [{ title: "Up" }, column("Factor on the map", "factor"), ...printColumns.map(([title, key]) => column(title, key))],
        this.shown.map((node) => [
          h("button", { type: "button", class: "link up", click: () => this.onShow(node) }, directionText(node.up)),
          factorText(node.factor), ...printColumns.map(([, key]) => three(node.print[key]))])),
      ...(more ? [more] : []));
    if (this.chosen) this.mark(this.chosen);
  }
}
