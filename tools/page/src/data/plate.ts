// How the part stands on the printer's plate, and which of its triangles need support there.
import type { Vector } from "./vector";
import type { PartSurface } from "./surface";

/** What printing in a direction asks, as the program counted it. */
export interface Print {
  height_mm: number;
  footprint_mm2: number;
  plate_contact_mm2: number;
  overhang_mm2: number;
  trapped_overhang_mm2: number;
}

export interface PlateRules {
  overhang_angle_deg: number;
  /** Cosines between a triangle's normal and down, and a height. */
  limits: { needs_support: number; flat: number; on_plate_mm: number };
  /** Faces that no support comes out from. */
  cavity: number[];
  /** By face. */
  body_of_face: number[];
  /** Those that are printed, each for itself. */
  bodies: { id: number; name: string; print_direction?: Vector; print?: Print }[];
}

/** What becomes of a triangle, by its number. */
export const kinds = ["prints without support", "lies on the plate", "needs support", "needs support that cannot be reached"];

/**
 * Of each triangle of one body its kind, by the rules of cases/studies/printability.cpp; those of other bodies stay 0.
 * @param surface  whose triangles are apart.
 */
export function standing({ solid: { position }, skin }: PartSurface, rules: PlateRules, body: number, up: Vector): Uint8Array<ArrayBuffer> {
  const { needs_support, flat, on_plate_mm } = rules.limits;
  const cavity = new Set(rules.cavity);
  const out = new Uint8Array(skin.faceOfTriangle.length);
  const corners = (t: number) => [3 * t, 3 * t + 1, 3 * t + 2].map((k) => 3 * skin.vertex[k]);
  const height = (at: number) => position[at] * up[0] + position[at + 1] * up[1] + position[at + 2] * up[2];
  const mine = [...out.keys()].filter((t) => skin.tetrahedronOfTriangle[t] === body);
  const plate = mine.reduce((low, t) => Math.min(low, ...corners(t).map(height)), Infinity);
  for (const t of mine) {
    const at = corners(t);
    const down = -cosine(position, at, up);
    if (!(down > 0)) continue;
    if (down > flat && at.every((corner) => height(corner) - plate < on_plate_mm)) out[t] = 1;
    else if (down > needs_support) out[t] = cavity.has(skin.faceOfTriangle[t]) ? 3 : 2;
  }
  return out;
}

/** Between a triangle's outward normal and a direction. */
function cosine(p: Float32Array, [a, b, c]: number[], up: Vector): number {
  const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
  const v = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
  const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  return (n[0] * up[0] + n[1] * up[1] + n[2] * up[2]) / Math.hypot(...n);
}
