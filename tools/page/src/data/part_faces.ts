// What `inspect --page` lays into the page: the listing of the part, and its surface and edges.
import { type Skin, skinOf } from "../view/skin";
import { readCodes, summed } from "./blocks";
import type { Arrays, Solid } from "./solid";

export interface CadFace {
  id: number;
  body: number;
  kind: string;
  area_mm2: number;
  name: string;
}

export interface Hole {
  id: number;
  diameter_mm: number;
  depth_mm: number;
  through: boolean;
  wall: number[];
  floor: number | null;
  seat: number | null;
}

export interface Wetted {
  volume_mm3: number;
  faces: number[];
}

export interface PartFaces {
  faces: string[];
  arrays: Arrays;
  geometry: {
    file: string;
    bodies: { id: number; name: string }[];
    faces: CadFace[];
    holes: Hole[];
    closed_cavities: Wetted[];
    wetted: Wetted | null;
    warnings: string[];
  };
}

async function readPoints(arrays: Arrays): Promise<Float32Array> {
  const position = new Float32Array(3 * arrays["points.x"].count);
  for (let axis = 0; axis < 3; axis++) {
    const name = `points.${"xyz"[axis]}`;
    const { low, step } = arrays[name];
    (await readCodes(name, arrays[name])).forEach((code, i) => (position[3 * i + axis] = low + step * code));
  }
  return position;
}

/** Pairs of points along each edge; the edges' points are the last ones. */
function courseLines(pointsOfEdge: Uint32Array, pointCount: number): Uint32Array {
  const lines: number[] = [];
  let first = pointCount - pointsOfEdge.reduce((sum, count) => sum + count, 0);
  for (const count of pointsOfEdge) {
    for (let i = 0; i + 1 < count; i++) lines.push(first + i, first + i + 1);
    first += count;
  }
  return Uint32Array.from(lines);
}

export interface PartSurface {
  solid: Solid;
  skin: Skin;
}

/** The surface as a part of no tetrahedra; a triangle's body stands for its tetrahedron. */
export async function readSurface({ arrays, geometry }: PartFaces): Promise<PartSurface> {
  const read = async (name: string) => summed(await readCodes(name, arrays[name])) as Uint32Array;
  const position = await readPoints(arrays);
  const faceOfTriangle = await read("face_of_triangle");
  const skin = skinOf({
    position,
    corners: await read("triangles"),
    faceOfTriangle,
    tetrahedronOfTriangle: faceOfTriangle.map((face) => geometry.faces[face - 1].body),
    lines: courseLines(await read("points_of_edge"), position.length / 3),
  });
  const none = new Uint32Array();
  const solid = {
    position, corners: position.length / 3, tetrahedra: none, middles: null, ends: none, surface: none, faceOfSurface: none,
  };
  return { solid, skin };
}
