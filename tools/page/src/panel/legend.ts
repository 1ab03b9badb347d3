// The colours' meaning, under the view.
import type { Scale } from "../view/scale";
import { h, s } from "../text/dom";

export function legend(scale: Scale, present: Set<number> | null): HTMLElement {
  const title = h("p", { class: "legend-title" }, scale.unit ? `${scale.title}, ${scale.unit}` : scale.title);
  if (scale.names) {
    const entries = scale.names.flatMap((name, i) => {
      if (present && !present.has(i + scale.low)) return [];
      const patch = s("svg", { width: 14, height: 14, "aria-hidden": "true" }, s("rect", { width: 14, height: 14, rx: 2, fill: scale.colours[i] }));
      return [h("li", {}, patch, name)];
    });
    return h("div", { class: "legend" }, title, h("ul", { class: "names" }, ...entries));
  }
  const count = scale.colours.length;
  const width = 1000 / count;
  const place = (at: number) => (1000 * (at - scale.low)) / (scale.high - scale.low);
  const hatch = s("pattern", { id: "hatch", width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
    s("rect", { width: 1.6, height: 6, fill: "#000", opacity: 0.32 }));
  const bands = scale.colours.map((colour, i) => s("rect", { x: i * width, width: width - 2, height: 14, fill: colour }));
  const short = scale.hatchBelow === undefined ? null
    : s("rect", { width: Math.max(0, place(scale.hatchBelow) - 2), height: 14, fill: "url(#hatch)" });
  const bar = s("svg", { viewBox: "0 0 1000 14", preserveAspectRatio: "none", class: "bands", "aria-hidden": "true" },
    s("defs", {}, hatch), ...bands, short);
  const ticks = scale.ticks.map(({ at, text }) => {
    const tick = h("span", {}, text);
    const share = place(at) / 10;
    tick.style.left = `${share}%`;
    tick.style.transform = `translateX(${share < 2 ? 0 : share > 98 ? -100 : -50}%)`;
    return tick;
  });
  return h("div", { class: "legend" }, title, bar, h("div", { class: "ticks" }, ...ticks));
}
