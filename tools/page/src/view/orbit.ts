// Turning, moving and nearing the view by mouse, touch and keys.
import * as THREE from "three";

export class Orbit {
  readonly target = new THREE.Vector3();
  /** About z, from the x axis; and above the plate [rad]. */
  azimuth = -Math.PI / 3;
  elevation = Math.PI / 7;
  distance = 1;
  private readonly pointers = new Map<number, { x: number; y: number }>();
  private gap = 0;
  dragged = false;

  constructor(
    private readonly camera: THREE.PerspectiveCamera,
    private readonly element: HTMLElement,
    private readonly changed: () => void,
  ) {
    element.addEventListener("pointerdown", (event) => this.press(event));
    element.addEventListener("pointermove", (event) => this.drag(event));
    for (const end of ["pointerup", "pointercancel"] as const)
      element.addEventListener(end, (event) => this.pointers.delete(event.pointerId));
    // The wheel scrolls the page unless the view was chosen first.
    element.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    element.addEventListener("keydown", (event) => this.key(event));
    element.addEventListener("contextmenu", (event) => event.preventDefault());
  }

  place(): void {
    const flat = Math.cos(this.elevation);
    const away = new THREE.Vector3(flat * Math.cos(this.azimuth), flat * Math.sin(this.azimuth), Math.sin(this.elevation));
    this.camera.position.copy(this.target).addScaledVector(away, this.distance);
    this.camera.up.set(0, 0, 1);
    if (Math.abs(this.elevation) > 1.57) this.camera.up.set(-Math.cos(this.azimuth), -Math.sin(this.azimuth), 0);
    this.camera.lookAt(this.target);
    this.camera.near = this.distance / 100;
    this.camera.far = this.distance * 100;
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
  }

  private turn(dx: number, dy: number): void {
    this.azimuth -= dx;
    this.elevation = Math.max(-1.5707, Math.min(1.5707, this.elevation + dy));
    this.changed();
  }

  private move(dx: number, dy: number): void {
    const scale = (2 * this.distance * Math.tan((this.camera.fov * Math.PI) / 360)) / this.element.clientHeight;
    const axis = (column: number) => new THREE.Vector3().setFromMatrixColumn(this.camera.matrixWorld, column);
    this.target.addScaledVector(axis(0), -dx * scale).addScaledVector(axis(1), dy * scale);
    this.changed();
  }

  private near(by: number): void {
    this.distance *= by;
    this.changed();
  }

  private press(event: PointerEvent): void {
    this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    this.element.setPointerCapture(event.pointerId);
    this.gap = 0;
    this.dragged = false;
  }

  private drag(event: PointerEvent): void {
    const before = this.pointers.get(event.pointerId);
    if (!before) return;
    const [dx, dy] = [event.clientX - before.x, event.clientY - before.y];
    if (!this.dragged && Math.hypot(dx, dy) < 4 && this.pointers.size === 1) return;
    this.dragged = true;
    this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (this.pointers.size === 2) {
      const [a, b] = [...this.pointers.values()];
      const gap = Math.hypot(a.x - b.x, a.y - b.y);
      if (this.gap > 0) this.near(this.gap / gap);
      this.gap = gap;
      this.move(dx / 2, dy / 2);
    } else if (event.shiftKey || event.buttons & 6) this.move(dx, dy);
    else this.turn(dx * 0.008, dy * 0.008);
  }

  private wheel(event: WheelEvent): void {
    if (!event.ctrlKey && document.activeElement !== this.element) return;
    event.preventDefault();
    this.near(Math.exp(event.deltaY * 0.0015));
  }

  private key(event: KeyboardEvent): void {
    const step = 0.12;
    const turns: Record<string, [number, number]> = {
      ArrowLeft: [step, 0],
      ArrowRight: [-step, 0],
      ArrowUp: [0, -step],
      ArrowDown: [0, step],
    };
    const turn = turns[event.key];
    if (turn && event.shiftKey) this.move(turn[0] * -200, turn[1] * -200);
    else if (turn) this.turn(...turn);
    else if (event.key === "+" || event.key === "=") this.near(0.85);
    else if (event.key === "-") this.near(1 / 0.85);
    else return;
    event.preventDefault();
  }
}
