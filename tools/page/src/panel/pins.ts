// Numbered marks at the worst places, as buttons above the canvas.
import type * as THREE from "three";
import { h } from "../text/dom";
import type { Part } from "../view/part";
import type { Stage } from "../view/stage";

export interface Pin {
  label: string;
  place: number[];
  title: string;
  chosen: () => void;
}

export class Pins {
  readonly layer = h("div", { class: "pins" });
  private pins: { pin: Pin; button: HTMLButtonElement; at: THREE.Vector3 }[] = [];

  constructor(
    private readonly stage: Stage,
    private readonly part: Part,
  ) {}

  set(pins: Pin[]): void {
    this.pins = pins.map((pin) => {
      const button = h("button", { class: "pin", type: "button", title: pin.title, "aria-label": pin.title, click: pin.chosen }, pin.label);
      return { pin, button, at: this.part.drawnAt(pin.place) };
    });
    // The first is the worst: it lies on top and is reached first.
    this.layer.replaceChildren(...this.pins.map(({ button }) => button));
    this.pins.forEach(({ button }, i) => (button.style.zIndex = String(this.pins.length - i)));
  }

  move(): void {
    for (const entry of this.pins) entry.at = this.part.drawnAt(entry.pin.place);
  }

  /** To where each is seen. */
  follow(): void {
    for (const { button, at } of this.pins) {
      const { x, y } = this.stage.project(at);
      button.style.transform = `translate(${x - 11}px, ${y - 11}px)`;
    }
  }

  /** Those behind the part or in what is cut away become faint. */
  fade(size: number): void {
    for (const { pin, button, at } of this.pins) {
      const { x, y } = this.stage.project(at);
      const ray = this.stage.ray(x, y);
      const hit = this.part.under(ray);
      const behind = hit !== null && hit.point.distanceTo(ray.origin) < at.distanceTo(ray.origin) - 0.01 * size;
      button.classList.toggle("behind", behind || !this.part.keeps(pin.place));
    }
  }

  /** Into a picture without buttons. */
  draw(context: CanvasRenderingContext2D, pixels: number): void {
    for (const { pin, at, button } of [...this.pins].reverse()) {
      const { x, y } = this.stage.project(at);
      context.globalAlpha = button.classList.contains("behind") ? 0.5 : 1;
      context.beginPath();
      context.arc(x * pixels, y * pixels, 10 * pixels, 0, 2 * Math.PI);
      context.fillStyle = "#16191c";
      context.fill();
      context.lineWidth = 2 * pixels;
      context.strokeStyle = "#fff";
      context.stroke();
      context.fillStyle = "#fff";
      context.font = `600 ${11 * pixels}px system-ui, sans-serif`;
      context.textAlign = "center";
      context.textBaseline = "middle";
      context.fillText(pin.label, x * pixels, y * pixels);
    }
    context.globalAlpha = 1;
  }
}
