// Directions on a disc of equal areas, and a value between those that it is known for.
import type { Vector } from "./vector";

export const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** The direction or its opposite, whichever does not point down; both are equally strong. */
export const upper = (n: Vector): Vector => (n[2] < 0 ? [-n[0], -n[1], -n[2]] : n);

/** Lambert's equal-area projection from z, the half-sphere within the unit circle; not of -z. */
export function onDisc([x, y, z]: Vector): [number, number] {
  const size = Math.sqrt(1 + z);
  return [x / size, y / size];
}

/** The direction at a place of the disc; beyond the unit circle it points down. */
export function directionAt(x: number, y: number): Vector {
  const r2 = Math.min(x * x + y * y, 1.99);
  const size = Math.sqrt(2 - r2);
  return [x * size, y * size, 1 - r2];
}

/** Position of the direction that is nearest to one or to its opposite. */
export function nearest(directions: Vector[], n: Vector): number {
  let best = 0;
  directions.forEach((other, i) => {
    if (Math.abs(dot(other, n)) > Math.abs(dot(directions[best], n))) best = i;
  });
  return best;
}

interface Place {
  x: number;
  y: number;
  value: number | null;
}

/** Values of directions, laid smoothly through the disc: at each place the plane that fits those round it best. */
export class DiscField {
  private readonly reach: number;
  private readonly across: number;
  private readonly cells = new Map<number, Place[]>();

  constructor(directions: Vector[], values: (number | null)[]) {
    // About sixteen directions round each place.
    this.reach = 2.3 * Math.sqrt(Math.PI / directions.length);
    this.across = Math.ceil(2.8 / this.reach);
    directions.forEach((direction, i) => {
      const [x, y, z] = upper(direction);
      this.add(onDisc([x, y, z]), values[i]);
      // Beyond the rim lie the opposites.
      if (z < 3 * this.reach) this.add(onDisc([-x, -y, -z]), values[i]);
    });
  }

  private cell(x: number, y: number): number {
    return Math.floor((y + 1.5) / this.reach) * this.across * 2 + Math.floor((x + 1.5) / this.reach);
  }

  private add([x, y]: [number, number], value: number | null): void {
    const cell = this.cell(x, y);
    const places = this.cells.get(cell);
    if (places) places.push({ x, y, value });
    else this.cells.set(cell, [{ x, y, value }]);
  }

  /** null: no limit is found there. */
  at(x: number, y: number): number | null {
    const near: { dx: number; dy: number; w: number; value: number | null }[] = [];
    for (let i = -1; i <= 1; i++) {
      for (let k = -1; k <= 1; k++) {
        for (const place of this.cells.get(this.cell(x + i * this.reach, y + k * this.reach)) ?? []) {
          const [dx, dy] = [place.x - x, place.y - y];
          const w = 1 - (dx * dx + dy * dy) / (this.reach * this.reach);
          if (w > 0) near.push({ dx, dy, w: w * w, value: place.value });
        }
      }
    }
    near.sort((a, b) => b.w - a.w);
    if (near.length === 0 || near[0].value === null) return null;
    const known = near.filter(({ value }) => value !== null) as { dx: number; dy: number; w: number; value: number }[];
    if (known.length < near.length || known.length < 4) return near[0].value;
    return fitted(known, near[0].value);
  }
}

/** The least-squares plane's value at the origin; `otherwise` where the places lie on a line. */
function fitted(places: { dx: number; dy: number; w: number; value: number }[], otherwise: number): number {
  let [s, sx, sy, sxx, sxy, syy, v, vx, vy] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const { dx, dy, w, value } of places) {
    s += w; sx += w * dx; sy += w * dy; sxx += w * dx * dx; sxy += w * dx * dy; syy += w * dy * dy;
    v += w * value; vx += w * dx * value; vy += w * dy * value;
  }
  // Cramer's rule for the plane's height.
  const minors = [sxx * syy - sxy * sxy, sx * syy - sxy * sy, sx * sxy - sxx * sy];
  const det = s * minors[0] - sx * minors[1] + sy * minors[2];
  if (!(det > 1e-9 * s * minors[0])) return otherwise;
  return (v * minors[0] - vx * minors[1] + vy * minors[2]) / det;
}
