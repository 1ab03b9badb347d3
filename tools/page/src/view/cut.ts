// A true section: the plane through the tetrahedra, so that the field inside the wall shows.
import type { Solid } from "../data/solid";

/** Points between two of the solid's vertices: at `share` of the way from `from` to `to`. */
export interface CutPoints {
  from: Uint32Array;
  to: Uint32Array;
  share: Float32Array;
  /** Tetrahedron behind each triangle, of three points each. */
  tetrahedron: Uint32Array;
}

// Eight straight tetrahedra in place of a ten-node one, by its vertices 0 to 9.
const parts = [
  [0, 4, 6, 7], [4, 1, 5, 8], [6, 5, 2, 9], [7, 8, 9, 3],
  [4, 9, 5, 8], [4, 9, 8, 7], [4, 9, 7, 6], [4, 9, 6, 5],
];
const whole = [[0, 1, 2, 3]];

/**
 * @param normal, offset  the plane normal . x = offset, in the shape at rest [mm].
 * @param skip  tetrahedra left out.
 */
export function cutSolid(solid: Solid, normal: number[], offset: number, skip: (t: number) => boolean): CutPoints {
  const { position, tetrahedra, middles } = solid;
  const count = position.length / 3;
  const height = new Float32Array(count);
  for (let i = 0; i < count; i++) {
    const h = normal[0] * position[3 * i] + normal[1] * position[3 * i + 1] + normal[2] * position[3 * i + 2] - offset;
    // A vertex on the plane would make triangles of no area.
    height[i] = h === 0 ? 1e-9 : h;
  }
  const from: number[] = [];
  const to: number[] = [];
  const share: number[] = [];
  const tetrahedron: number[] = [];
  const add = (a: number, b: number) => {
    from.push(a);
    to.push(b);
    share.push(height[a] / (height[a] - height[b]));
  };
  const nodes = new Uint32Array(10);
  const perElement = middles ? 10 : 4;
  for (let t = 0; t < tetrahedra.length / 4; t++) {
    let above = 0;
    for (let k = 0; k < 4; k++) nodes[k] = tetrahedra[4 * t + k];
    if (middles) for (let k = 0; k < 6; k++) nodes[4 + k] = middles[6 * t + k];
    for (let k = 0; k < perElement; k++) if (height[nodes[k]] > 0) above++;
    if (above === 0 || above === perElement || skip(t)) continue;
    for (const part of middles ? parts : whole) {
      const up = part.filter((k) => height[nodes[k]] > 0).map((k) => nodes[k]);
      const down = part.filter((k) => height[nodes[k]] <= 0).map((k) => nodes[k]);
      if (up.length === 0 || down.length === 0) continue;
      if (up.length === 2) {
        const [[a, b], [c, d]] = [up, down];
        for (const [p, q] of [[a, c], [a, d], [b, d], [a, c], [b, d], [b, c]]) add(p, q);
        tetrahedron.push(t, t);
      } else {
        const [single, others] = up.length === 1 ? [up[0], down] : [down[0], up];
        for (const other of others) add(single, other);
        tetrahedron.push(t);
      }
    }
  }
  return {
    from: Uint32Array.from(from),
    to: Uint32Array.from(to),
    share: Float32Array.from(share),
    tetrahedron: Uint32Array.from(tetrahedron),
  };
}

/** A field of `size` components a vertex at the cut's points. */
export function atCut(points: CutPoints, field: Float32Array, size: number, nearest = false): Float32Array {
  const out = new Float32Array(size * points.from.length);
  for (let i = 0; i < points.from.length; i++) {
    const s = nearest ? Math.round(points.share[i]) : points.share[i];
    for (let c = 0; c < size; c++) {
      const a = field[size * points.from[i] + c];
      const b = field[size * points.to[i] + c];
      out[size * i + c] = s === 0 ? a : s === 1 ? b : a + s * (b - a);
    }
  }
  return out;
}
