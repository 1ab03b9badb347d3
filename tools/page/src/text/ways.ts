// What would give way first: a bar for each way of failing.
import { scaleLog } from "d3-scale";
import type { ModePlace, Summary } from "../data/summary";
import { capital, factorText, figures, placeText, rangeText } from "../data/words";
import { h, s } from "./dom";

export interface WaysOptions {
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

export function ways(summary: Summary, { places, wordsFor, faceWords, show }: WaysOptions): HTMLElement {
  const rows = places.map((mode, i) => {
    const words = capital(wordsFor(mode.mode));
    const name = show
      ? h("button", { type: "button", class: "link", click: () => show(mode) }, words)
      : h("span", {}, words);
    const where = `${faceWords(mode.face)}, at ${placeText(mode.position_mm)} mm`;
    const range = rangeText(mode);
    return h("li", {},
      h("span", { class: "pin-label", "aria-hidden": "true" }, String(i + 1)),
      h("div", { class: "way" }, name, h("small", {}, where)),
      bar(mode, summary.target_safety_factor, 240),
      h("div", { class: "value", "data-mode": mode.mode }, h("strong", {}, factorText(mode.value)), range ? h("small", {}, range) : null));
  });
  return h("div", {},
    h("p", { class: "lead" }, `The least factor of each way of failing, with its range. The upright line is the ${figures(summary.target_safety_factor, 3)} you asked for.`),
    h("ol", { class: "ways" }, ...rows));
}
