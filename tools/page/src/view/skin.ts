// The boundary of the mesh as triangles to draw and to point at, and the lines between CAD faces.
import * as THREE from "three";
import type { Solid } from "../data/solid";

// Corners of the triangle opposite each corner of a tetrahedron, counter-clockwise from outside.
const opposite = [[1, 2, 3], [0, 3, 2], [0, 1, 3], [0, 2, 1]];
const middleOf = new Map(["01", "12", "02", "03", "13", "23"].map((pair, e) => [pair, e]));

const middleIndex = (a: number, b: number): number => middleOf.get(a < b ? `${a}${b}` : `${b}${a}`)!;

export interface Skin {
  /** Attributes position, normal, rest, value; vertices are apart where CAD faces meet. */
  geometry: THREE.BufferGeometry;
  /** The solid's vertex behind each of the geometry's. */
  vertex: Uint32Array;
  faceOfTriangle: Uint32Array;
  tetrahedronOfTriangle: Uint32Array;
  /** Pairs of the solid's vertices. */
  lines: Uint32Array;
  /** Two tetrahedra at each line, which is shown while either is. */
  ownersOfLine: Uint32Array;
}

/** Triangles by the solid's vertices: four for each curved one, one for each straight one. */
function flatTriangles(solid: Solid) {
  const parts = solid.middles ? 4 : 1;
  const corners = new Uint32Array(3 * parts * solid.surface.length);
  solid.surface.forEach((code, i) => {
    const t = code >> 2;
    const [p, q, r] = opposite[code & 3];
    const [a, b, c] = [p, q, r].map((k) => solid.tetrahedra[4 * t + k]);
    if (!solid.middles) return corners.set([a, b, c], 3 * i);
    const [ab, bc, ca] = [[p, q], [q, r], [r, p]].map(([k, l]) => solid.middles![6 * t + middleIndex(k, l)]);
    corners.set([a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca], 12 * i);
  });
  return { corners, parts };
}

/** Lines where the boundary's faces meet: edges of triangles that are met with two faces. */
function faceLines(solid: Solid): Pick<Skin, "lines" | "ownersOfLine"> {
  const firstAtEdge = new Map<number, number>();
  const lines: number[] = [];
  const owners: number[] = [];
  solid.surface.forEach((code, i) => {
    const t = code >> 2;
    const corners = opposite[code & 3];
    for (let e = 0; e < 3; e++) {
      const [k, l] = [corners[e], corners[(e + 1) % 3]];
      const [a, b] = [solid.tetrahedra[4 * t + k], solid.tetrahedra[4 * t + l]];
      const key = Math.min(a, b) * solid.corners + Math.max(a, b);
      const first = firstAtEdge.get(key);
      if (first === undefined) firstAtEdge.set(key, i);
      else if (solid.faceOfSurface[first] !== solid.faceOfSurface[i]) {
        const middle = solid.middles?.[6 * t + middleIndex(k, l)];
        lines.push(...(middle === undefined ? [a, b] : [a, middle, middle, b]));
        const pair = [solid.surface[first] >> 2, t];
        owners.push(...(middle === undefined ? pair : [...pair, ...pair]));
      }
    }
  });
  return { lines: Uint32Array.from(lines), ownersOfLine: Uint32Array.from(owners) };
}

/** What a skin is made of: triangles by vertices, in the order of their CAD faces. */
export interface Surface {
  position: Float32Array;
  corners: Uint32Array;
  faceOfTriangle: Uint32Array;
  tetrahedronOfTriangle: Uint32Array;
  lines: Uint32Array;
  ownersOfLine: Uint32Array;
}

function surfaceOf(solid: Solid): Surface {
  const { corners, parts } = flatTriangles(solid);
  const count = parts * solid.surface.length;
  return {
    position: solid.position,
    corners,
    faceOfTriangle: Uint32Array.from({ length: count }, (_, i) => solid.faceOfSurface[Math.floor(i / parts)]),
    tetrahedronOfTriangle: Uint32Array.from({ length: count }, (_, i) => solid.surface[Math.floor(i / parts)] >> 2),
    ...faceLines(solid),
  };
}

export const makeSkin = (solid: Solid): Skin => skinOf(surfaceOf(solid));

export function skinOf({ position, corners, faceOfTriangle, tetrahedronOfTriangle, lines, ownersOfLine }: Surface): Skin {
  const faceAt = new Uint32Array(position.length / 3);
  const numberAt = new Uint32Array(faceAt.length);
  const vertex: number[] = [];
  const index = new Uint32Array(corners.length);
  for (let k = 0; k < corners.length; k++) {
    const v = corners[k];
    const face = faceOfTriangle[Math.floor(k / 3)];
    if (faceAt[v] !== face) {
      faceAt[v] = face;
      numberAt[v] = vertex.length;
      vertex.push(v);
    }
    index[k] = numberAt[v];
  }
  const rest = new Float32Array(3 * vertex.length);
  vertex.forEach((v, i) => rest.set(position.subarray(3 * v, 3 * v + 3), 3 * i));
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(rest.slice(), 3));
  geometry.setAttribute("rest", new THREE.BufferAttribute(rest, 3));
  geometry.setAttribute("value", new THREE.BufferAttribute(new Float32Array(vertex.length), 1));
  geometry.setAttribute("chosen", new THREE.BufferAttribute(new Float32Array(vertex.length), 1));
  geometry.setIndex(new THREE.BufferAttribute(index, 1));
  geometry.computeVertexNormals();
  return { geometry, vertex: Uint32Array.from(vertex), faceOfTriangle, tetrahedronOfTriangle, lines, ownersOfLine };
}

/** The same with three vertices for each triangle, so that each can have a colour of its own; lit as before. */
export function apart(skin: Skin): Skin {
  const index = skin.geometry.index!.array;
  const geometry = skin.geometry.toNonIndexed();
  geometry.setIndex(new THREE.BufferAttribute(Uint32Array.from(index, (_, i) => i), 1));
  return { ...skin, geometry, vertex: Uint32Array.from(index, (i) => skin.vertex[i]) };
}
