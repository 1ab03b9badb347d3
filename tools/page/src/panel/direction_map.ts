// The map of factors over print directions, to point and to step on.
import { directionOf, type DirectionRow, type MapNode, type PrintMap, strongestFirst } from "../data/directions";
import { directionAt, DiscField, nearest, onDisc, upper } from "../data/half_sphere";
import type { Vector } from "../data/vector";
import { factorText, upText } from "../data/words";
import { h, s } from "../text/dom";
import { paintDisc } from "../view/disc";
import { type Scale, spanScale } from "../view/scale";
import { legend } from "./legend";

const tilts = [30, 60];
const radiusOf = (tilt: number) => Math.sqrt(1 - Math.cos((tilt * Math.PI) / 180));

export class DirectionMap {
  readonly element: HTMLElement;
  /** How to read it. */
  readonly words: HTMLElement;
  private readonly nodes: MapNode[];
  private readonly directions: Vector[];
  private readonly ring = s("g", { class: "chosen" }, s("circle", { r: 0.085, class: "halo" }), s("circle", { r: 0.085 }));
  private readonly plot: SVGSVGElement;
  private chosen: Vector = [0, 0, 1];
  onChoose: (node: MapNode) => void = () => {};
  onRow: (row: DirectionRow) => void = () => {};

  /** @param solved  names of the rows that say something of this print. */
  constructor({ nodes, bodies }: PrintMap, rows: DirectionRow[], solved: string[], target: number) {
    this.nodes = nodes;
    this.directions = nodes.map(({ up }) => up);
    const canvas = h("canvas", { "aria-hidden": "true" });
    const scale = scaleOf(nodes, target);
    paintDisc(canvas, new DiscField(this.directions, nodes.map(({ factor }) => factor)), scale);
    this.plot = s("svg", {
      viewBox: "-1.14 -1.14 2.28 2.28", tabindex: 0, role: "application",
      "aria-label": "Map of print directions. Arrow keys choose the next direction; what it is like is told beside the map.",
    }, ...grid(), ...pins(rows, solved, bodies[0], (row) => this.onRow(row)), this.ring);
    this.plot.addEventListener("pointerdown", (event) => this.press(event));
    this.plot.addEventListener("pointermove", (event) => this.drag(event));
    this.plot.addEventListener("keydown", (event) => this.key(event));
    this.element = h("figure", { class: "map" }, h("div", { class: "disc" }, canvas, this.plot), legend(scale, null));
    this.words = h("p", { class: "fine words" }, `Each place of the map is a direction that points up from the plate: z in the middle, flat ones at the rim, equal areas for equally many. A direction and its opposite share a place: they are equally strong. Bands are laid smoothly through ${nodes.length} directions; a click means the nearest of these.`);
  }

  /** Show which direction is looked at; it need not be one of the map's. */
  mark(direction: Vector): void {
    this.chosen = direction;
    const [x, y] = onDisc(upper(direction));
    this.ring.setAttribute("transform", `translate(${x} ${-y})`);
  }

  private choose(x: number, y: number): void {
    const node = this.nodes[nearest(this.directions, directionAt(x, y))];
    if (node.up !== this.chosen) this.onChoose(node);
  }

  private press(event: PointerEvent): void {
    if (event.target instanceof Element && event.target.closest(".mark")) return;
    this.plot.setPointerCapture(event.pointerId);
    this.point(event);
  }

  private drag(event: PointerEvent): void {
    if (this.plot.hasPointerCapture(event.pointerId)) this.point(event);
  }

  /** A place beyond the rim means the rim. */
  private point(event: PointerEvent): void {
    const box = this.plot.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top].map((at) => (2.28 * at) / box.width - 1.14);
    const size = Math.max(1, Math.hypot(x, y));
    this.choose(x / size, -y / size);
  }

  private key(event: KeyboardEvent): void {
    const steps: Record<string, [number, number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const way = steps[event.key];
    if (!way) return;
    event.preventDefault();
    const [x, y] = onDisc(upper(this.chosen));
    // As far as it takes to another direction; beyond the rim comes the other side.
    const spacing = Math.sqrt(Math.PI / this.nodes.length);
    const from = this.chosen;
    for (let share = 0.8; this.chosen === from && share < 3; share += 0.2)
      this.choose(x + share * spacing * way[0], y + share * spacing * way[1]);
  }
}

function scaleOf(nodes: MapNode[], target: number): Scale {
  const known = nodes.map(({ factor }) => factor).filter((factor): factor is number => factor !== null);
  const [least, greatest] = known.length ? [Math.min(...known), Math.max(...known)] : [0, 1];
  const scale = spanScale("Safety factor by print direction", least, greatest, target);
  if (known.length < nodes.length) scale.title += known.length ? "; grey: no limit found" : ": no limit found";
  return scale;
}

function grid(): SVGElement[] {
  const name = (x: number, y: number, text: string) => s("text", { x, y: y + 0.03, class: "axis" }, text);
  return [
    s("circle", { r: 1, class: "rim" }),
    ...tilts.map((tilt) => s("circle", { r: radiusOf(tilt), class: "ring" })),
    ...tilts.map((tilt) => s("text", { x: 0.72 * radiusOf(tilt), y: -0.72 * radiusOf(tilt), class: "tilt" }, `${tilt}\u00b0`)),
    s("path", { class: "ring", d: "M-1 0H1M0-1V1" }),
    name(1.08, 0, "x"), name(-1.08, 0, "\u2212x"), name(0, -1.08, "y"), name(0, 1.08, "\u2212y"),
  ];
}

/** A numbered mark for each direction that was solved, numbered as in its table, the strongest on top. */
function pins(rows: DirectionRow[], solved: string[], body: number, onRow: (row: DirectionRow) => void): SVGElement[] {
  return strongestFirst(rows).flatMap((row, i) => {
    const direction = directionOf(row, body);
    if (!direction || !solved.includes(row.name)) return [];
    const [x, y] = onDisc(upper(direction));
    const title = `${row.name}: ${factorText(row.safety_factor.value)}, ${upText(direction)}`;
    return s("g", { class: "mark", transform: `translate(${x} ${-y})`, click: () => onRow(row) },
      s("title", {}, title), s("circle", { r: 0.056 }), s("text", { y: 0.024 }, String(i + 1)));
  }).reverse();
}
