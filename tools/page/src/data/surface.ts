// The CAD's surface and edges, as written by tools/results/page_surface.cpp.
import { type Skin, skinOf } from "../view/skin";
import { readCodes, summed } from "./blocks";
import type { Arrays, Solid } from "./solid";

async function readPoints(arrays: Arrays): Promise<Float32Array> {
  const position = new Float32Array(3 * arrays["points.x"].count);
  for (let axis = 0; axis < 3; axis++) {
    const name = `points.${"xyz"[axis]}`;
    const { low, step } = arrays[name];
    (await readCodes(name, arrays[name])).forEach((code, i) => (position[3 * i + axis] = low + step * code));
  }
  return position;
}

/** Pairs of points along each edge, and the two bodies of each pair; the edges' points are the last ones. */
function courseLines(pointsOfEdge: Uint32Array, bodiesOfEdge: Uint32Array, pointCount: number): Pick<Skin, "lines" | "ownersOfLine"> {
  const lines: number[] = [];
  const owners: number[] = [];
  let first = pointCount - pointsOfEdge.reduce((sum, count) => sum + count, 0);
  pointsOfEdge.forEach((count, edge) => {
    for (let i = 0; i + 1 < count; i++) {
      lines.push(first + i, first + i + 1);
      owners.push(bodiesOfEdge[2 * edge], bodiesOfEdge[2 * edge + 1]);
    }
    first += count;
  });
  return { lines: Uint32Array.from(lines), ownersOfLine: Uint32Array.from(owners) };
}

export interface PartSurface {
  solid: Solid;
  skin: Skin;
}

/** The surface as a part of no tetrahedra; a triangle's body stands for its tetrahedron. */
export async function readSurface(arrays: Arrays, bodyOfFace: (face: number) => number): Promise<PartSurface> {
  const read = async (name: string) => summed(await readCodes(name, arrays[name])) as Uint32Array;
  const position = await readPoints(arrays);
  const faceOfTriangle = await read("face_of_triangle");
  const skin = skinOf({
    position,
    corners: await read("triangles"),
    faceOfTriangle,
    tetrahedronOfTriangle: faceOfTriangle.map(bodyOfFace),
    ...courseLines(await read("points_of_edge"), await read("bodies_of_edge"), position.length / 3),
  });
  const none = new Uint32Array();
  const solid = {
    position, corners: position.length / 3, tetrahedra: none, middles: null, ends: none, surface: none, faceOfSurface: none,
  };
  return { solid, skin };
}
