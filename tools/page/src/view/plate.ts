// The printer's plate: a square with a grid, and the part's shadow on it.
import * as THREE from "three";

const steps = [1, 2, 5, 10, 20, 50, 100, 200];

export class Plate {
  readonly group = new THREE.Group();
  /** Of the grid's squares [mm]. */
  readonly step: number;
  private readonly ground: THREE.Mesh<THREE.BufferGeometry, THREE.MeshBasicMaterial>;
  private readonly grid: THREE.LineSegments<THREE.BufferGeometry, THREE.LineBasicMaterial>;
  private readonly shadow: THREE.Mesh<THREE.BufferGeometry, THREE.MeshBasicMaterial>;

  /** @param part  whose shadow falls straight down. @param reach  half the plate's side, at least [mm]. */
  constructor(
    private readonly part: THREE.Object3D,
    surface: THREE.BufferGeometry,
    reach: number,
  ) {
    this.step = steps.find((step) => reach / step <= 8) ?? 500;
    const count = Math.ceil(reach / this.step);
    const half = count * this.step;
    const places: number[] = [];
    for (let i = -count; i <= count; i++) {
      const at = i * this.step;
      places.push(at, -half, 0, at, half, 0, -half, at, 0, half, at, 0);
    }
    const lines = new THREE.BufferGeometry();
    lines.setAttribute("position", new THREE.Float32BufferAttribute(places, 3));
    this.grid = new THREE.LineSegments(lines, new THREE.LineBasicMaterial());
    // One below the other, so that none shines through.
    this.ground = new THREE.Mesh(new THREE.PlaneGeometry(2 * half, 2 * half), new THREE.MeshBasicMaterial());
    this.ground.position.z = -0.006 * half;
    this.grid.position.z = -0.004 * half;
    this.shadow = new THREE.Mesh(surface, new THREE.MeshBasicMaterial({ side: THREE.DoubleSide }));
    this.shadow.matrixAutoUpdate = false;
    this.shadow.frustumCulled = false;
    this.group.add(this.ground, this.grid, this.shadow);
  }

  setColours(ground: string, grid: string, shadow: string): void {
    const take = (colour: THREE.Color, text: string) => colour.setStyle(text, THREE.LinearSRGBColorSpace);
    take(this.ground.material.color, ground);
    take(this.grid.material.color, grid);
    take(this.shadow.material.color, shadow);
  }

  /** Let the shadow fall anew. */
  follow(): void {
    this.part.updateMatrix();
    const flat = new THREE.Matrix4().makeScale(1, 1, 0).setPosition(0, 0, this.grid.position.z / 2);
    this.shadow.matrix.multiplyMatrices(flat, this.part.matrix);
  }

  /** From below the plate would hide what is to be seen. */
  setSeenFromAbove(above: boolean): void {
    this.ground.visible = this.shadow.visible = above;
  }
}
