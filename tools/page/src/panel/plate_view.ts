// The part as it stands on the plate, with what needs support.
import * as THREE from "three";
import { kinds, type PlateRules, standing } from "../data/plate";
import type { Vector } from "../data/vector";
import { supportLines } from "../data/support";
import type { PartSurface } from "../data/surface";
import { capital, directionText, figures } from "../data/words";
import { h } from "../text/dom";
import { Part } from "../view/part";
import { Plate } from "../view/plate";
import type { Scale } from "../view/scale";
import { apart } from "../view/skin";
import { Stage } from "../view/stage";
import { Support } from "../view/support";
import { Axes } from "./axes";
import { legend } from "./legend";
import { copyDrawn } from "./paper";
import { type Cut, planeOf } from "./section_plane";
import { type Stand, standButtons, stands } from "./stands";
import { inLight } from "./theme";

const scale: Scale = {
  title: "", unit: "", colours: ["#d5d9da", "#4b8aa9", "#d67837", "#821a1f"],
  low: 0, high: kinds.length, names: kinds.map(capital), ticks: [],
};
const up = new THREE.Vector3(0, 0, 1);
const turning = 260; // ms
// Low, so that what looks down is seen.
const corner: Stand = [stands.Corner[0], 0.2];

export class PlateView {
  readonly canvas = h("canvas", { tabindex: 0, "aria-label": "The part as it stands on the plate. Arrow keys turn the view, plus and minus come nearer and go back." });
  readonly picture = h("canvas", { class: "printed", "aria-hidden": "true" });
  readonly tip = h("div", { class: "tip", role: "status" });
  readonly frame = h("div", { class: "view" }, this.canvas);
  readonly legendPlace = h("div");
  readonly part: Part;
  private readonly surface: PartSurface;
  private readonly stage: Stage;
  private readonly axes = new Axes();
  private readonly plate: Plate;
  private readonly support = new Support(scale.colours.slice(2));
  private supportEnds: number[][] = [[], []];
  /** What the part fills, as it stands. */
  private box: THREE.Box3 | null = null;
  private kindOf = new Uint8Array(0);
  private body: number;
  private direction: Vector = [0, 0, 1];
  private turn = 0;

  constructor(
    private readonly rules: PlateRules,
    { solid, skin }: PartSurface,
    private readonly faceWords: (face: number) => string,
  ) {
    this.surface = { solid, skin: apart(skin) };
    this.body = rules.bodies[0].id;
    this.stage = new Stage(this.canvas);
    this.part = new Part(solid, this.surface.skin);
    this.part.setScale(scale);
    if (rules.bodies.length > 1) this.setBody(this.body);
    const size = this.part.box.getSize(new THREE.Vector3()).length();
    this.plate = new Plate(this.part.group, this.surface.skin.geometry, 0.6 * size);
    this.part.group.add(this.support.group);
    this.stage.scene.add(this.plate.group, this.part.group);
    this.frame.append(this.axes.element, standButtons((stand) => this.stage.standAt(stand, this.box!)),
      h("p", { class: "hint" }, `Squares of ${figures(this.plate.step)} mm; drag to turn the view`), this.tip, this.picture);
    this.stage.onDrawn = () => this.drawn();
    this.canvas.addEventListener("pointermove", (event) => this.point(event));
    this.canvas.addEventListener("pointerleave", () => this.tip.classList.remove("shown"));
    this.setColours();
  }

  start(): void {
    this.stage.standAt(corner, this.box!);
  }

  /** Print another body. */
  setBody(id: number): void {
    this.body = id;
    this.part.setHidden((body) => body !== id);
  }

  /** Turn the part so that a direction is up. @param at_once  without showing the way there. */
  stand(direction: Vector, at_once = false): void {
    this.direction = direction;
    delete this.frame.dataset.up;
    this.kindOf = standing(this.surface, this.rules, this.body, direction);
    this.part.setTriangleValues(this.kindOf);
    this.legendPlace.replaceChildren(legend(scale, new Set(this.kindOf)));
    this.supportEnds = supportLines(this.surface, this.body, this.kindOf, direction, this.plate.step / 4);
    this.setSupport();
    const to = new THREE.Quaternion().setFromUnitVectors(new THREE.Vector3(...direction).normalize(), up);
    const still = at_once || matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.turnTo(this.part.group.quaternion.clone(), to, still ? 0 : turning);
  }

  setCut(cut: Cut, share: number): void {
    this.part.setPlane(planeOf(cut, share, null, this.part.box));
    this.setSupport();
    this.stage.redraw();
  }

  themeChanged(): void {
    this.setColours();
    this.stage.redraw();
  }

  /** What the picture shows, for paper. */
  caption(): string {
    const several = this.rules.bodies.length > 1 ? `${this.rules.bodies.find(({ id }) => id === this.body)!.name}, ` : "";
    return `${several}${directionText(this.direction)} up, on a plate with squares of ${figures(this.plate.step)} mm.`;
  }

  takePicture(): void {
    inLight(() => {
      this.setColours();
      this.stage.draw();
      copyDrawn(this.canvas, this.picture, () => {});
    });
    this.themeChanged();
  }

  private setSupport(): void {
    this.support.set(this.supportEnds, (place) => this.part.keeps(place));
  }

  private turnTo(from: THREE.Quaternion, to: THREE.Quaternion, duration: number): void {
    const turn = ++this.turn;
    const begun = performance.now();
    const step = () => {
      if (turn !== this.turn) return; // another direction was chosen
      const share = duration > 0 ? Math.min(1, (performance.now() - begun) / duration) : 1;
      this.place(from.clone().slerp(to, share * share * (3 - 2 * share)));
      this.stage.redraw();
      if (share < 1) requestAnimationFrame(step);
      else this.frame.dataset.up = this.direction.join(" ");
    };
    step();
  }

  /** On its lowest point, its middle over the plate's. */
  private place(turn: THREE.Quaternion): void {
    const { solid, skin } = this.surface;
    const matrix = new THREE.Matrix4().makeRotationFromQuaternion(turn);
    const box = new THREE.Box3();
    const at = new THREE.Vector3();
    skin.tetrahedronOfTriangle.forEach((body, t) => {
      if (body !== this.body) return;
      for (let k = 3 * t; k < 3 * t + 3; k++) box.expandByPoint(at.fromArray(solid.position, 3 * skin.vertex[k]).applyMatrix4(matrix));
    });
    this.part.group.quaternion.copy(turn);
    this.part.group.position.set(-(box.min.x + box.max.x) / 2, -(box.min.y + box.max.y) / 2, -box.min.z);
    this.plate.follow();
    this.keepInView(box.translate(this.part.group.position));
  }

  /** As near to what the part fills now as the reader had come to what it filled before. */
  private keepInView(box: THREE.Box3): void {
    const { orbit } = this.stage;
    if (this.box) {
      orbit.distance *= this.stage.distanceFor(box) / this.stage.distanceFor(this.box);
      orbit.target.z += (box.max.z - this.box.max.z) / 2;
    }
    this.box = box;
  }

  private setColours(): void {
    const style = getComputedStyle(document.documentElement);
    const colour = (name: string) => style.getPropertyValue(name).trim();
    this.part.setLineColour(colour("--edge"));
    this.plate.setColours(colour("--plate"), colour("--grid"), colour("--shadow"));
  }

  private drawn(): void {
    this.axes.follow(this.stage.camera, this.part.group.quaternion);
    this.plate.setSeenFromAbove(this.stage.camera.position.z > 0);
    this.frame.dataset.drawn = "yes";
  }

  private point(event: PointerEvent): void {
    const box = this.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const hit = event.buttons === 0 ? this.part.under(this.stage.ray(x, y)) : null;
    this.tip.classList.toggle("shown", hit !== null);
    if (!hit) return;
    this.tip.replaceChildren(h("strong", {}, capital(kinds[this.kindOf[hit.triangle!]])), h("span", {}, this.faceWords(hit.face!)));
    this.tip.style.transform = `translate(${Math.min(x + 14, box.width - 230)}px, ${Math.max(y - 62, 4)}px)`;
  }
}
