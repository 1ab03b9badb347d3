// The canvas: renderer, camera, and drawing when something changed.
import * as THREE from "three";
import { Orbit } from "./orbit";

export class Stage {
  readonly scene = new THREE.Scene();
  readonly camera = new THREE.PerspectiveCamera(24, 1, 1, 1000);
  readonly orbit: Orbit;
  private readonly renderer: THREE.WebGLRenderer;
  private waiting = false;
  /** Called after each picture, with the size in CSS pixels. */
  onDrawn: (width: number, height: number) => void = () => {};

  /** @throws Error where the browser offers no WebGL. */
  constructor(readonly canvas: HTMLCanvasElement) {
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true, preserveDrawingBuffer: true });
    this.renderer.outputColorSpace = THREE.LinearSRGBColorSpace;
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.orbit = new Orbit(this.camera, canvas, () => this.redraw());
    new ResizeObserver(() => this.redraw()).observe(canvas.parentElement!);
  }

  redraw(): void {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => this.draw());
  }

  draw(): void {
    this.waiting = false;
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement!;
    if (width === 0 || height === 0) return;
    const size = this.renderer.getSize(new THREE.Vector2());
    if (size.x !== width || size.y !== height) this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.orbit.place();
    this.renderer.render(this.scene, this.camera);
    this.onDrawn(width, height);
  }

  /** Come as near as a box allows, from where the view stands. */
  frame(box: THREE.Box3): void {
    box.getCenter(this.orbit.target);
    this.orbit.distance = this.distanceFor(box);
  }

  /** How far from a box's middle it is seen whole, from the side where the view stands. */
  distanceFor(box: THREE.Box3): number {
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement!;
    this.orbit.place();
    const margin = 0.86;
    const up = Math.tan((this.camera.fov * Math.PI) / 360) * margin;
    const aside = (up * width) / Math.max(height, 1);
    const turn = this.camera.quaternion.clone().invert();
    const middle = box.getCenter(new THREE.Vector3());
    let distance = 0;
    for (let corner = 0; corner < 8; corner++) {
      const at = new THREE.Vector3(...[0, 1, 2].map((c) => (corner >> c) & 1 ? box.max.getComponent(c) : box.min.getComponent(c)));
      at.sub(middle).applyQuaternion(turn);
      distance = Math.max(distance, at.z + Math.abs(at.x) / aside, at.z + Math.abs(at.y) / up);
    }
    return distance;
  }

  /** @param stand  azimuth and elevation [rad]. */
  standAt([azimuth, elevation]: readonly [number, number], box: THREE.Box3): void {
    [this.orbit.azimuth, this.orbit.elevation] = [azimuth, elevation];
    this.frame(box);
    this.redraw();
  }

  /** Where a point of space is seen [CSS pixels]. */
  project(point: THREE.Vector3): { x: number; y: number } {
    const seen = point.clone().project(this.camera);
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement!;
    return { x: ((seen.x + 1) / 2) * width, y: ((1 - seen.y) / 2) * height };
  }

  ray(x: number, y: number): THREE.Ray {
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement!;
    const caster = new THREE.Raycaster();
    caster.setFromCamera(new THREE.Vector2((2 * x) / width - 1, 1 - (2 * y) / height), this.camera);
    return caster.ray;
  }
}
