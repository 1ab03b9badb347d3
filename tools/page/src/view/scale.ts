// From values to colours: twelve even bands between two ends, or one colour a name.
import { figures } from "../data/words";

export interface Scale {
  title: string;
  unit: string;
  colours: string[];
  /** Ends of the bands, in what is stored (log2 of a factor); values beyond take the last colour. */
  low: number;
  high: number;
  /** Names of the colours instead of bands; then `low` is the first one's number. */
  names?: string[];
  /** Bands below this stored value are hatched: what falls short must not be told by hue alone. */
  hatchBelow?: number;
  ticks: { at: number; text: string }[];
}

// Steps of even lightness; warm and cool ends differ for every common kind of colour blindness.
const shortfall = ["#5c0a1e", "#821a1f", "#a63221", "#c2512a", "#d67837", "#e7a34f"];
const margin = ["#4b8aa9", "#6aa3bd", "#8ab9cc", "#a9cdda", "#c6dee5", "#e0edef"];
const sequence = [
  "#2a2158", "#30346f", "#334a80", "#33618a", "#33778e", "#378c8e",
  "#46a18b", "#62b484", "#87c67c", "#b0d677", "#d6e27a", "#f6ec88",
];
const kinds = ["#c2512a", "#e7a34f", "#4b8aa9", "#8068ad", "#3f8f73", "#b5446e", "#8f8f8f", "#8a6d3b"];

/** Factors by powers of two, with the target in the middle. */
export function factorScale(target: number): Scale {
  const middle = Math.log2(target);
  const tick = (factor: number, text: string) => ({ at: Math.log2(factor), text });
  const ticks = [tick(target / 4, `\u2264 ${figures(target / 4, 2)}`), tick(target, `${figures(target, 3)} asked for`)];
  if (target / 4 < 0.8 && target > 1.3) ticks.push(tick(1, "1"));
  ticks.push(tick(2 * target, figures(2 * target, 2)), tick(4 * target, `\u2265 ${figures(4 * target, 2)}`));
  return {
    title: "Safety factor",
    unit: "",
    colours: [...shortfall, ...margin],
    low: middle - 2,
    high: middle + 2,
    hatchBelow: middle,
    ticks,
  };
}

/** Bands over what nearly all values span: a peak at one node must not hide the rest. */
export function bandScale(title: string, unit: string, values: Float32Array, shown = 1): Scale {
  const sample = values.filter((value, i) => i % Math.ceil(values.length / 20000) === 0 && Number.isFinite(value)).sort();
  let low = sample.length ? sample[Math.floor(0.002 * (sample.length - 1))] : 0;
  let high = sample.length ? sample[Math.ceil(0.998 * (sample.length - 1))] : 1;
  if (!(high > low)) [low, high] = [low - 0.5, low + 0.5];
  const ticks = [0, 1, 2, 3, 4].map((i) => {
    const at = low + (i / 4) * (high - low);
    return { at, text: `${i === 0 ? "\u2264 " : i === 4 ? "\u2265 " : ""}${figures(at * shown, 3)}` };
  });
  return { title, unit, colours: sequence, low, high, ticks };
}

/** Bands over all of a map's factors, from the least to the greatest. */
export function spanScale(title: string, least: number, greatest: number, target: number): Scale {
  const even = greatest > least ? 0 : 0.05 * Math.max(greatest, 1);
  const [low, high] = [least - even, greatest + even];
  const inside = target > low && target < high;
  const ticks = [0, 1, 2, 3, 4].map((i) => low + (i / 4) * (high - low))
    .filter((at) => !inside || Math.abs(at - target) > 0.14 * (high - low))
    .map((at) => ({ at, text: figures(at, 3) }));
  if (inside) ticks.push({ at: target, text: `${figures(target, 3)} asked for` });
  return { title, unit: "", colours: sequence, low, high, hatchBelow: inside ? target : undefined, ticks };
}

export function nameScale(title: string, names: string[]): Scale {
  return { title, unit: "", colours: ["#d9d8d3", ...kinds].slice(0, names.length + 1), low: -1, high: names.length, names: ["no limit found", ...names], ticks: [] };
}
