// What would give way first: a bar for each way of failing.
import { scaleLog } from "d3-scale";
import type { Judgement, ModePlace, Summary } from "../data/summary";
import { capital, factorText, factorWithRange, figures, ownError, placeText, rangeText } from "../data/words";
import { h, s } from "./dom";

export interface WaysOptions {
  /** The governing load case's factor on all loads. */
  judged: Judgement | null;
  /** The same on pressures and forces alone. */
  onPressure: Judgement | null;
  places: ModePlace[];
  wordsFor: (mode: string) => string;
  faceWords: (face: number | null) => string;
  show: ((place: ModePlace) => void) | null;
}

function bar(mode: ModePlace, target: number, width: number): SVGSVGElement {
  const x = scaleLog().domain([target / 8, target * 8]).range([0, width]).clamp(true);
  const [value, low, high] = [x(mode.value ?? 1e9), x(mode.low ?? 1e9), x(mode.high ?? 1e9)];
  return s("svg", { viewBox: `0 0 ${width} 22`, class: "bar", "aria-hidden": "true" },
    s("line", { class: "rail", x1: 0, x2: width, y1: 11, y2: 11 }),
    s("line", { class: "spread", x1: low, x2: high, y1: 11, y2: 11 }),
    s("line", { class: "asked", x1: x(target), x2: x(target), y1: 0, y2: 22 }),
    s("circle", { class: (mode.value ?? 1e9) < target ? "short" : "enough", cx: value, cy: 11, r: 5 }));
}

/** Worst points that count for nothing, with the reason. */
function leftOut(judged: Judgement, wordsFor: WaysOptions["wordsFor"], faceWords: WaysOptions["faceWords"]): HTMLElement[] {
  const told = (id: string, modes: ModePlace[], why: string) =>
    modes.length === 0 ? [] : [
      h("p", { class: "lead apart" }, `Left out of the factor, because ${why}:`),
      h("ul", { id }, ...modes.map((mode) => h("li", {}, `${capital(wordsFor(mode.mode))}: ${factorWithRange(mode)}, ${faceWords(mode.face)}, at ${placeText(mode.position_mm)} mm`)))];
  return [
    ...told("near-supports", judged.near_artificial_supports, "only the model's own supports or point loads make them"),
    ...told("under-heads", judged.under_screw_heads, "the screws' heads crush there, how their force spreads is assumed, and the joint's pressure under them is judged instead"),
  ];
}

export function ways(summary: Summary, { judged, onPressure, places, wordsFor, faceWords, show }: WaysOptions): HTMLElement {
  const rows = places.map((mode, i) => {
    const words = capital(wordsFor(mode.mode));
    const name = show
      ? h("button", { type: "button", class: "link", click: () => show(mode) }, words)
      : h("span", {}, words);
    const where = `${faceWords(mode.face)}, at ${placeText(mode.position_mm)} mm`;
    const alone = onPressure?.applies ? onPressure.modes[mode.mode] : undefined;
    const under = [ownError(mode), rangeText(mode)].filter(Boolean);
    return h("li", {},
      h("span", { class: "pin-label", "aria-hidden": "true" }, String(i + 1)),
      h("div", { class: "way" }, name, h("small", {}, where),
        alone ? h("small", {}, `on pressure alone ${factorText(alone.value)} ${ownError(alone)}`) : null),
      bar(mode, summary.target_safety_factor, 240),
      h("div", { class: "value", "data-mode": mode.mode }, h("strong", {}, factorText(mode.value)), ...under.map((text) => h("small", {}, text))));
  });
  return h("div", {},
    h("p", { class: "lead" }, `The least factor of each way of failing; \u00b1 is what the mesh may be off by, by the stress round the place alone (the safety factor's at the head: by the whole part), \u00b1 ? where elements beside an edge are too long to tell; below it the range that estimated constants leave. The upright line is the ${figures(summary.target_safety_factor, 3)} you asked for.`),
    h("ol", { class: "ways" }, ...rows),
    ...(judged ? leftOut(judged, wordsFor, faceWords) : []));
}
