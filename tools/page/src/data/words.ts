// Numbers as a reader gets them.
import { type Range, type Summary, worseOf } from "./summary";
import type { Vector } from "./vector";

/** So many significant digits, no zeros after them; a true minus sign. */
export function figures(value: number | null, digits = 4): string {
  if (value === null || !Number.isFinite(value)) return "\u2013";
  const text = String(Number(value.toPrecision(digits)));
  return text.replace("-", "\u2212");
}

export const three = (value: number | null): string => figures(value, 3);

/** A safety factor: none means that no limit was found. */
export const factorText = (value: number | null): string => (value === null ? "no limit found" : three(value));

export function rangeText(range: Range): string {
  const end = (value: number | null) => (value === null ? "no limit" : three(value));
  return end(range.low) === end(range.high) ? "" : `${end(range.low)} to ${end(range.high)}`;
}

export const factorWithRange = (range: Range): string =>
  factorText(range.value) + (rangeText(range) ? ` (${rangeText(range)})` : "");

/** What the mesh may be off by, of a factor that there is: "\u00b1 0.2", "\u00b1 ?" where it is not known. */
export const ownError = ({ value, mesh_error }: { value: number | null; mesh_error: number | null }): string =>
  value === null ? "" : `\u00b1 ${mesh_error === null ? "?" : figures(mesh_error, 2)}`;

export const placeText = (place: Vector): string =>
  place.map((x) => (Math.round(x * 10) / 10 + 0).toFixed(1).replace("-", "\u2212")).join(", ");

export const percent = (fraction: number | null): string =>
  fraction === null ? "\u2013" : Math.abs(fraction) < 1e-5 ? "under 0.001 %" : `${figures(100 * fraction, 2)} %`;

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export function directionText(direction: Vector): string {
  const axis = direction.findIndex((x) => Math.abs(Math.abs(x) - 1) < 1e-9);
  if (axis >= 0) return (direction[axis] > 0 ? "+" : "\u2212") + "xyz"[axis];
  return `(${direction.map((x) => (Math.round(1000 * x) / 1000 + 0).toFixed(3).replace("-", "\u2212")).join(", ")})`;
}

/** "+z up". */
export const upText = (direction: Vector | null): string => (direction ? `${directionText(direction)} up` : "each body its own way up");

/** The factor that the verdict speaks of. */
export const worseOfValue = (summary: Summary): string =>
  factorText(worseOf(summary.safety_factor, summary.pressure_factor).value);
