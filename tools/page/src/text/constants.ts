// Which constant to measure: what each that is known to a range only does to the factor by itself.
import { scaleLinear } from "d3-scale";
import { type About, type ConstantEffect, type Summary, worseOf } from "../data/summary";
import { capital, figures, three } from "../data/words";
import { h, s, section } from "./dom";

// Stretched to the room there is.
const size = { width: 400, height: 22, thin: 1.5, thick: 6 };

interface Scale {
  /** Where a factor lies; past every other where no limit was found. */
  x: (factor: number | null) => number;
  found: number | null;
  target: number;
}

/** One for all bars. */
function scaleOf(effects: ConstantEffect[], found: number | null, target: number): Scale {
  const ends = effects.flatMap((effect) => [effect.safety_factor_at_low, effect.safety_factor_at_high]);
  const all = [...ends, found, target].filter((factor) => factor !== null);
  const x = scaleLinear([Math.min(...all), Math.max(...all)], [6, ends.includes(null) ? size.width - 30 : size.width - 6]);
  return { x: (factor) => (factor === null ? size.width : x(factor)), found, target };
}

/** Thin at the constant's low end, thick at its high end, parted where the factor is what was asked for. */
function bar({ safety_factor_at_low, safety_factor_at_high }: ConstantEffect, { x, found, target }: Scale): SVGSVGElement {
  const { width, height, thin, thick } = size;
  const [low, high, asked] = [x(safety_factor_at_low), x(safety_factor_at_high), x(target)];
  const [left, right] = [Math.min(low, high), Math.max(low, high)];
  const parting = Math.min(Math.max(asked, left), right);
  const half = (at: number) => thin + ((thick - thin) * (at - low)) / (high - low);
  const middle = height / 2;
  const piece = (from: number, to: number, name: string) =>
    from < to && s("path", { class: name, d: `M${from} ${middle - half(from)}L${to} ${middle - half(to)}V${middle + half(to)}L${from} ${middle + half(from)}z` });
  return s("svg", { viewBox: `0 0 ${width} ${height}`, class: "bar", preserveAspectRatio: "none", "aria-hidden": "true" },
    s("line", { class: "rail", x1: 0, x2: width, y1: middle, y2: middle }),
    piece(left, parting, "short"),
    piece(parting, right, "enough"),
    found !== null && s("line", { class: "found", x1: x(found), x2: x(found), y1: 0, y2: height }),
    s("line", { class: "asked", x1: asked, x2: asked, y1: 0, y2: height }));
}

export function constants(summary: Summary, { constants: words }: About): HTMLElement | null {
  if (!words) return null;
  const shown = summary.constant_effects.slice(0, words.rows.length);
  const scale = scaleOf(shown, worseOf(summary.safety_factor, summary.pressure_factor).value, summary.target_safety_factor);
  const rows = shown.map((effect, i) => {
    const { name, known, factor, how } = words.rows[i];
    return h("li", {},
      h("div", {}, name, h("small", {}, capital([effect.meaning, `known as ${known}`].filter(Boolean).join(", ")))),
      bar(effect, scale),
      h("div", { class: "value" }, h("strong", {}, factor), h("small", {}, how)));
  });
  const lines = `The bars have one scale: thin at the constant\u2019s low end, thick at its high end. The upright line is the ${figures(scale.target, 3)} you asked for` +
    (scale.found === null ? "." : `, the dashed one the ${three(scale.found)} found.`) +
    (shown.some(({ safety_factor_at_low: low, safety_factor_at_high: high }) => low === null || high === null) ? " Where no limit was found a bar runs to the right edge." : "");
  return section("constants", "Which constant to measure",
    h("p", { class: "sentence" }, words.before, words.name && h("strong", {}, words.name), words.after),
    rows.length ? h("p", { class: "lead" }, lines) : null,
    rows.length ? h("ol", { class: "constants" }, ...rows) : null,
    words.notes && h("p", { class: "fine" }, words.notes));
}
