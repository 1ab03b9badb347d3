// Which plane cuts the part: along an axis, or through the worst place.
import type * as THREE from "three";
import type { Plane } from "../view/part";

export const cuts = ["off", "worst", "x", "y", "z"] as const;
export type Cut = (typeof cuts)[number];

/** Cuts through a place and the part's middle line along z, so that a wall is met square. */
export function normalThrough(place: number[], box: THREE.Box3): number[] {
  const middle = [(box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2];
  const [dx, dy] = [place[0] - middle[0], place[1] - middle[1]];
  const away = Math.hypot(dx, dy);
  const size = Math.max(box.max.x - box.min.x, box.max.y - box.min.y);
  if (away < 0.02 * size) return [0, -1, 0];
  // Nearly along an axis is along it: a section is easier to read square to the part.
  if (Math.abs(dy) < 0.15 * away) return [0, -1, 0];
  if (Math.abs(dx) < 0.15 * away) return [1, 0, 0];
  return [dy / away, -dx / away, 0];
}

const axisNormals: Record<string, number[]> = { x: [1, 0, 0], y: [0, -1, 0], z: [0, 0, 1] };

/** @param share  -1 to 1 of the way from the middle of the slider to its ends. */
export function planeOf(cut: Cut, share: number, worst: number[] | null, box: THREE.Box3): Plane | null {
  if (cut === "off" || (cut === "worst" && !worst)) return null;
  const normal = cut === "worst" ? normalThrough(worst!, box) : axisNormals[cut];
  const corner = (pick: (n: number, low: number, high: number) => number) =>
    normal.reduce((sum, n, i) => sum + n * pick(n, box.min.getComponent(i), box.max.getComponent(i)), 0);
  const low = corner((n, a, b) => (n > 0 ? a : b));
  const high = corner((n, a, b) => (n > 0 ? b : a));
  const middle = cut === "worst" ? normal.reduce((sum, n, i) => sum + n * worst![i], 0) : (low + high) / 2;
  const offset = share < 0 ? middle + share * (middle - low) : middle + share * (high - middle);
  return { normal, offset };
}

/** "y = 0 mm" */
export function planeWords(cut: Cut, plane: Plane): string {
  const axis = plane.normal.findIndex((n) => Math.abs(n) === 1);
  const sign = axis < 0 ? 1 : plane.normal[axis];
  const at = `${(Math.round(10 * plane.offset * sign) / 10 + 0).toFixed(1).replace("-", "\u2212")} mm`;
  if (axis >= 0) return `${"xyz"[axis]} = ${at}`;
  return cut === "worst" ? "slanting" : at;
}
