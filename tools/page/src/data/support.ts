// Where support would stand: upright lines from what overhangs down to whatever lies below.
import type { Vector } from "./vector";
import type { PartSurface } from "./surface";

interface Crossing {
  height: number;
  kind: number;
}

/** Two directions on the plate, square to each other. */
function plateAxes([x, y, z]: Vector): [Vector, Vector] {
  const u: Vector = Math.abs(x) < 0.9 ? [0, z, -y] : [-z, 0, x];
  const size = Math.hypot(...u);
  const first = u.map((c) => c / size) as Vector;
  return [first, [y * first[2] - z * first[1], z * first[0] - x * first[2], x * first[1] - y * first[0]]];
}

/**
 * @param surface  whose triangles are apart.  @param kindOf  of each triangle; `standing` made it.
 * @param step  from line to line [mm].
 * @return ends of lines, x y z in the part's axes: of support that can be reached, and of that which cannot.
 */
export function supportLines({ solid: { position }, skin }: PartSurface, body: number, kindOf: Uint8Array, up: Vector, step: number): [number[], number[]] {
  const [e, f] = plateAxes(up);
  const along = (axis: Vector, at: number) => position[at] * axis[0] + position[at + 1] * axis[1] + position[at + 2] * axis[2];
  const columns = new Map<string, { u: number; v: number; met: Crossing[] }>();
  let plate = Infinity;
  kindOf.forEach((kind, t) => {
    if (skin.tetrahedronOfTriangle[t] !== body) return;
    const corners = [3 * t, 3 * t + 1, 3 * t + 2].map((k) => 3 * skin.vertex[k]);
    const [u, v, h] = [e, f, up].map((axis) => corners.map((at) => along(axis, at)));
    plate = Math.min(plate, ...h);
    const area = (u[1] - u[0]) * (v[2] - v[0]) - (u[2] - u[0]) * (v[1] - v[0]);
    if (Math.abs(area) < 1e-12) return; // upright
    for (let i = Math.ceil(Math.min(...u) / step); i * step <= Math.max(...u); i++) {
      for (let j = Math.ceil(Math.min(...v) / step); j * step <= Math.max(...v); j++) {
        const [x, y] = [i * step, j * step];
        const b = ((x - u[0]) * (v[2] - v[0]) - (u[2] - u[0]) * (y - v[0])) / area;
        const c = ((u[1] - u[0]) * (y - v[0]) - (x - u[0]) * (v[1] - v[0])) / area;
        if (b < 0 || c < 0 || b + c > 1) continue;
        const key = `${i},${j}`;
        const column = columns.get(key) ?? { u: x, v: y, met: [] };
        column.met.push({ height: h[0] + b * (h[1] - h[0]) + c * (h[2] - h[0]), kind });
        columns.set(key, column);
      }
    }
  });
  const reached: number[] = [];
  const trapped: number[] = [];
  const sliver = 0.02 * step; // triangles that share an edge meet a line twice
  for (const { u, v, met } of columns.values()) {
    for (const { height, kind } of met) {
      if (kind < 2) continue;
      const below = met.reduce((low, other) => (other.height < height - sliver ? Math.max(low, other.height) : low), plate);
      for (const end of [height, below])
        (kind === 3 ? trapped : reached).push(...[0, 1, 2].map((i) => u * e[i] + v * f[i] + end * up[i]));
    }
  }
  return [reached, trapped];
}
