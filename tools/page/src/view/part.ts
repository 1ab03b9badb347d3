// The part in the view: its skin, its section, what lies under a point, how it moves.
import * as THREE from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { Solid } from "../data/solid";
import { atCut, type CutPoints, cutSolid } from "./cut";
import { makePaint, type Paint, setScale } from "./paint";
import type { Scale } from "./scale";
import { makeSkin, type Skin } from "./skin";

export interface Plane {
  normal: number[];
  offset: number;
}

/** What lies under the pointer. */
export interface Hit {
  point: THREE.Vector3;
  /** Absent on the face of a section. */
  face?: number;
  /** Of the skin; absent on the face of a section. */
  triangle?: number;
  tetrahedron: number;
  /** A field there. */
  read: (field: Float32Array, nearest?: boolean) => number;
}

interface Field {
  values: Float32Array;
  nearest: boolean;
}

export class Part {
  readonly skin: Skin;
  readonly group = new THREE.Group();
  readonly box: THREE.Box3;
  private readonly paint: Paint = makePaint();
  private readonly cutPaint: Paint = makePaint(0.75);
  private readonly ink = new THREE.LineBasicMaterial({ color: 0x1c2226, transparent: true, opacity: 0.75 });
  private readonly cutMesh = new THREE.Mesh(new THREE.BufferGeometry(), this.cutPaint);
  private readonly lines: THREE.LineSegments;
  private readonly allIndex: THREE.BufferAttribute;
  /** The skin's triangles that are shown; null: all. */
  private shown: Uint32Array | null = null;
  private hiddenFrom: (t: number) => boolean = () => false;
  private tree: MeshBVH | null = null;
  private cutTree: MeshBVH | null = null;
  private plane: Plane | null = null;
  private points: CutPoints | null = null;
  private moved: Float32Array;
  private field: Field | null = null;

  /** @param skin  of the solid; of a surface alone, whose solid has no tetrahedra. */
  constructor(
    private readonly solid: Solid,
    skin: Skin = makeSkin(solid),
  ) {
    this.skin = skin;
    this.moved = solid.position;
    this.allIndex = this.skin.geometry.index!.clone();
    this.skin.geometry.computeBoundingBox();
    this.box = this.skin.geometry.boundingBox!.clone();
    const lineGeometry = new THREE.BufferGeometry();
    lineGeometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(3 * this.skin.lines.length), 3));
    this.lines = new THREE.LineSegments(lineGeometry, this.ink);
    const surface = new THREE.Mesh(this.skin.geometry, this.paint);
    for (const object of [surface, this.cutMesh, this.lines]) object.frustumCulled = false;
    this.group.add(surface, this.cutMesh, this.lines);
    this.place();
  }

  setLineColour(colour: string): void {
    this.ink.color.set(colour);
  }

  setScale(scale: Scale): void {
    setScale(this.paint, scale);
    setScale(this.cutPaint, scale);
  }

  setField(values: Float32Array, nearest: boolean): void {
    this.field = { values, nearest };
    const value = this.skin.geometry.getAttribute("value") as THREE.BufferAttribute;
    this.skin.vertex.forEach((v, i) => (value.array[i] = values[v]));
    value.needsUpdate = true;
    this.paintCut();
  }

  /** Mark faces: 1 chosen, 0.25 under the pointer. */
  setChosen(weightOfFace: (face: number) => number): void {
    this.setByFace("chosen", weightOfFace);
  }

  /** Colour whole faces instead of a field. */
  setFaceValues(valueOfFace: (face: number) => number): void {
    this.setByFace("value", valueOfFace);
  }

  /** Colour triangle by triangle, of a skin whose triangles are apart. */
  setTriangleValues(values: ArrayLike<number>): void {
    this.setByTriangle("value", (triangle) => values[triangle]);
  }

  private setByFace(name: string, valueOfFace: (face: number) => number): void {
    this.setByTriangle(name, (triangle) => valueOfFace(this.skin.faceOfTriangle[triangle]));
  }

  private setByTriangle(name: string, valueOf: (triangle: number) => number): void {
    const attribute = this.skin.geometry.getAttribute(name) as THREE.BufferAttribute;
    const index = this.allIndex.array;
    for (let i = 0; i < index.length; i++) attribute.array[index[i]] = valueOf(Math.floor(i / 3));
    attribute.needsUpdate = true;
  }

  /** @param displacement  x y z a vertex [mm], or null for the shape at rest. */
  setDisplacement(displacement: Float32Array | null, times: number): void {
    if (!displacement || times === 0) this.moved = this.solid.position;
    else this.moved = this.solid.position.map((x, i) => x + times * displacement[i]);
    this.place();
  }

  setHidden(hidden: (tetrahedron: number) => boolean): void {
    this.hiddenFrom = hidden;
    const triangles = [...this.skin.tetrahedronOfTriangle.keys()].filter((i) => !hidden(this.skin.tetrahedronOfTriangle[i]));
    const all = triangles.length === this.skin.tetrahedronOfTriangle.length;
    this.shown = all ? null : Uint32Array.from(triangles);
    const index = new Uint32Array(3 * triangles.length);
    triangles.forEach((t, i) => index.set(this.allIndex.array.subarray(3 * t, 3 * t + 3), 3 * i));
    this.skin.geometry.setIndex(new THREE.BufferAttribute(index, 1));
    this.tree = null;
    this.setPlane(this.plane);
  }

  setPlane(plane: Plane | null): void {
    this.plane = plane;
    this.paint.uniforms.cutting.value = plane !== null;
    if (plane) this.paint.uniforms.cut.value.set(plane.normal[0], plane.normal[1], plane.normal[2], plane.offset);
    this.points = plane ? cutSolid(this.solid, plane.normal, plane.offset, this.hiddenFrom) : null;
    this.cutMesh.visible = this.points !== null;
    this.placeLines();
    this.placeCut();
    this.paintCut();
  }

  private place(): void {
    const position = this.skin.geometry.getAttribute("position") as THREE.BufferAttribute;
    this.skin.vertex.forEach((v, i) => {
      for (let c = 0; c < 3; c++) position.array[3 * i + c] = this.moved[3 * v + c];
    });
    position.needsUpdate = true;
    this.tree?.refit();
    this.placeLines();
    this.placeCut();
  }

  /** Whether the section leaves a place of the shape at rest. */
  keeps(place: ArrayLike<number>): boolean {
    if (!this.plane) return true;
    const [x, y, z] = this.plane.normal;
    // A little more than single precision loses on a metre.
    return x * place[0] + y * place[1] + z * place[2] <= this.plane.offset + 1e-3;
  }

  private placeLines(): void {
    const position = this.lines.geometry.getAttribute("position") as THREE.BufferAttribute;
    let n = 0;
    for (let i = 0; i < this.skin.lines.length; i += 2) {
      if (this.hiddenFrom(this.skin.ownersOfLine[i]) && this.hiddenFrom(this.skin.ownersOfLine[i + 1])) continue;
      const ends = [this.skin.lines[i], this.skin.lines[i + 1]];
      if (!ends.every((v) => this.keeps(this.solid.position.subarray(3 * v, 3 * v + 3)))) continue;
      for (const v of ends) for (let c = 0; c < 3; c++) position.array[n++] = this.moved[3 * v + c];
    }
    position.needsUpdate = true;
    this.lines.geometry.setDrawRange(0, n / 3);
  }

  private placeCut(): void {
    if (!this.points || !this.plane) return;
    const geometry = new THREE.BufferGeometry();
    const count = this.points.from.length;
    const normal = new Float32Array(3 * count);
    for (let i = 0; i < count; i++) normal.set(this.plane.normal, 3 * i);
    geometry.setAttribute("position", new THREE.BufferAttribute(atCut(this.points, this.moved, 3), 3));
    geometry.setAttribute("rest", new THREE.BufferAttribute(atCut(this.points, this.solid.position, 3), 3));
    geometry.setAttribute("normal", new THREE.BufferAttribute(normal, 3));
    geometry.setAttribute("value", new THREE.BufferAttribute(new Float32Array(count), 1));
    geometry.setAttribute("chosen", new THREE.BufferAttribute(new Float32Array(count), 1));
    this.cutMesh.geometry.dispose();
    this.cutMesh.geometry = geometry;
    this.cutTree = null;
    this.paintCut();
  }

  private paintCut(): void {
    if (!this.points || !this.field || this.field.values.length * 3 !== this.solid.position.length) return;
    const value = this.cutMesh.geometry.getAttribute("value") as THREE.BufferAttribute;
    if (!value) return;
    value.array.set(atCut(this.points, this.field.values, 1, this.field.nearest));
    value.needsUpdate = true;
  }

  /** The nearest thing that a ray meets and that is not cut away; its point is the part's own, as if it were not turned. */
  under(seen: THREE.Ray): Hit | null {
    this.group.updateMatrixWorld();
    const ray = seen.clone().applyMatrix4(this.group.matrixWorld.clone().invert());
    this.tree ??= new MeshBVH(this.skin.geometry, { indirect: true });
    const hits = this.tree.raycast(ray, THREE.DoubleSide).sort((a, b) => a.distance - b.distance);
    const skinHit = hits.map((hit) => this.onSkin(hit)).find((hit) => hit !== null) ?? null;
    if (!this.points || this.points.from.length === 0) return skinHit;
    this.cutTree ??= new MeshBVH(this.cutMesh.geometry, { indirect: true });
    const cutHit = this.cutTree.raycastFirst(ray, THREE.DoubleSide);
    if (!cutHit) return skinHit;
    const farther = skinHit && skinHit.point.distanceTo(ray.origin) < cutHit.distance;
    return farther ? skinHit : this.onCut(cutHit);
  }

  private onSkin(hit: THREE.Intersection): Hit | null {
    const geometry = this.skin.geometry;
    const corners = [hit.face!.a, hit.face!.b, hit.face!.c];
    const share = shares(geometry.getAttribute("position") as THREE.BufferAttribute, corners, hit.point);
    const vertices = corners.map((i) => this.skin.vertex[i]);
    const rest = geometry.getAttribute("rest") as THREE.BufferAttribute;
    const restPlace = [0, 1, 2].map((c) => corners.reduce((sum, k, i) => sum + share[i] * rest.array[3 * k + c], 0));
    if (!this.keeps(restPlace)) return null;
    const triangle = this.shown ? this.shown[hit.faceIndex!] : hit.faceIndex!;
    return {
      point: hit.point,
      face: this.skin.faceOfTriangle[triangle],
      triangle,
      tetrahedron: this.skin.tetrahedronOfTriangle[triangle],
      read: (field, nearest) =>
        nearest ? field[vertices[largest(share)]] : vertices.reduce((sum, v, i) => sum + share[i] * field[v], 0),
    };
  }

  private onCut(hit: THREE.Intersection): Hit {
    const corners = [hit.face!.a, hit.face!.b, hit.face!.c];
    const share = shares(this.cutMesh.geometry.getAttribute("position") as THREE.BufferAttribute, corners, hit.point);
    const points = this.points!;
    const pick = {
      from: Uint32Array.from(corners, (i) => points.from[i]),
      to: Uint32Array.from(corners, (i) => points.to[i]),
      share: Float32Array.from(corners, (i) => points.share[i]),
      tetrahedron: points.tetrahedron,
    };
    return {
      point: hit.point,
      tetrahedron: points.tetrahedron[hit.faceIndex!],
      read: (field, nearest) => {
        const values = atCut(pick, field, 1, nearest);
        return nearest ? values[largest(share)] : values.reduce((sum, value, i) => sum + share[i] * value, 0);
      },
    };
  }

  /** Where a place of the shape at rest is drawn: moved with the nearest vertex. */
  drawnAt(place: number[]): THREE.Vector3 {
    const at = new THREE.Vector3(...place);
    if (this.moved === this.solid.position) return at;
    const nearest = this.nearestVertex(place);
    for (let c = 0; c < 3; c++)
      at.setComponent(c, at.getComponent(c) + this.moved[3 * nearest + c] - this.solid.position[3 * nearest + c]);
    return at;
  }

  nearestVertex(place: number[]): number {
    const p = this.solid.position;
    let best = 0;
    let least = Infinity;
    for (let i = 0; i < p.length / 3; i++) {
      const d = (p[3 * i] - place[0]) ** 2 + (p[3 * i + 1] - place[1]) ** 2 + (p[3 * i + 2] - place[2]) ** 2;
      if (d < least) [least, best] = [d, i];
    }
    return best;
  }
}

function shares(position: THREE.BufferAttribute, corners: number[], point: THREE.Vector3): number[] {
  const [a, b, c] = corners.map((i) => new THREE.Vector3().fromBufferAttribute(position, i));
  const out = THREE.Triangle.getBarycoord(point, a, b, c, new THREE.Vector3());
  return out ? [out.x, out.y, out.z] : [1, 0, 0];
}

const largest = (share: number[]): number => share.indexOf(Math.max(...share));
