// The mesh: ten-node tetrahedra, their boundary, and which CAD face each boundary triangle lies on.
import { type ArrayAbout, readCodes, summed } from "./blocks";

export type Arrays = Record<string, ArrayAbout>;

export interface Solid {
  /** x y z of each vertex, corners first [mm]. */
  position: Float32Array;
  corners: number;
  /** Four corners a tetrahedron. */
  tetrahedra: Uint32Array;
  /** Six middles a tetrahedron, of the edges 01 12 20 03 13 23; null where they were left out. */
  middles: Uint32Array | null;
  /** Two ends of each vertex after the corners. */
  ends: Uint32Array;
  /** 4 * tetrahedron + corner opposite; ordered by face. */
  surface: Uint32Array;
  faceOfSurface: Uint32Array;
}

const edges = [[0, 1], [1, 2], [2, 0], [0, 3], [1, 3], [2, 3]];

/** Numbers of tetrahedra's corners out of how far each is below the next new one. */
function corners(codes: Uint32Array): Uint32Array {
  let next = 0;
  for (let i = 0; i < codes.length; i++) {
    codes[i] = next - codes[i];
    if (codes[i] === next) next++;
  }
  return codes;
}

/** Middles get their numbers in the order in which the tetrahedra meet their edges. */
function numberedMiddles(tetrahedra: Uint32Array, cornerCount: number, middleCount: number) {
  const middles = new Uint32Array((tetrahedra.length / 4) * 6);
  const ends = new Uint32Array(2 * middleCount);
  // Open addressing: an edge is looked for from a place that its ends tell, up to the first gap.
  let slots = 1;
  while (slots < 2 * middleCount) slots *= 2;
  const table = new Int32Array(slots).fill(-1);
  let found = 0;
  for (let t = 0; t < tetrahedra.length / 4; t++) {
    for (let e = 0; e < 6; e++) {
      const p = tetrahedra[4 * t + edges[e][0]];
      const q = tetrahedra[4 * t + edges[e][1]];
      const a = Math.min(p, q);
      const b = Math.max(p, q);
      let slot = (Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca6b)) & (slots - 1);
      while (table[slot] >= 0 && (ends[2 * table[slot]] !== a || ends[2 * table[slot] + 1] !== b))
        slot = (slot + 1) & (slots - 1);
      if (table[slot] < 0) {
        table[slot] = found;
        ends[2 * found] = a;
        ends[2 * found + 1] = b;
        found++;
      }
      middles[6 * t + e] = cornerCount + table[slot];
    }
  }
  if (found !== middleCount) throw new Error(`the mesh has ${found} edges instead of ${middleCount}`);
  return { middles, ends };
}

export async function readSolid(arrays: Arrays, withMiddles: boolean): Promise<Solid> {
  const cornerCount = arrays["corners.x"].count;
  const middleCount = withMiddles ? arrays["middles.x"].count : 0;
  const tetrahedra = corners((await readCodes("tetrahedra", arrays["tetrahedra"])) as Uint32Array);
  const { middles, ends } = withMiddles
    ? numberedMiddles(tetrahedra, cornerCount, middleCount)
    : { middles: null, ends: new Uint32Array() };
  const position = new Float32Array(3 * (cornerCount + middleCount));
  for (let axis = 0; axis < 3; axis++) {
    const name = `corners.${"xyz"[axis]}`;
    const { low, step } = arrays[name];
    const codes = summed(await readCodes(name, arrays[name]));
    for (let i = 0; i < cornerCount; i++) position[3 * i + axis] = low + step * codes[i];
    if (!withMiddles) continue;
    const bendName = `middles.${"xyz"[axis]}`;
    const about = arrays[bendName];
    const bends = await readCodes(bendName, about);
    for (let i = 0; i < middleCount; i++) {
      const mean = (position[3 * ends[2 * i] + axis] + position[3 * ends[2 * i + 1] + axis]) / 2;
      position[3 * (cornerCount + i) + axis] = mean + about.low + about.step * bends[i];
    }
  }
  return {
    position,
    corners: cornerCount,
    tetrahedra,
    middles,
    ends,
    surface: summed(await readCodes("surface", arrays["surface"])) as Uint32Array,
    faceOfSurface: summed(await readCodes("face_of_surface", arrays["face_of_surface"])) as Uint32Array,
  };
}
