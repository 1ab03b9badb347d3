// The 3-D view with what is asked of it: load case, quantity, section, movement, bodies.
import * as THREE from "three";
import { bodyOfTetrahedron, type Context, displacement, type Quantity, quantities } from "../data/quantities";
import { caseTitle, type ModePlace, worstPlaces } from "../data/summary";
import type { Vector } from "../data/vector";
import { capital, factorText, figures, placeText } from "../data/words";
import { h } from "../text/dom";
import { type Hit, Part, type Plane } from "../view/part";
import { Stage } from "../view/stage";
import { Axes } from "./axes";
import { legend } from "./legend";
import { Pins } from "./pins";
import { type Cut, planeOf } from "./section_plane";
import { type Stand, standButtons, stands } from "./stands";
import { copyDrawn } from "./paper";
import { inLight } from "./theme";

export class Viewer {
  readonly canvas = h("canvas", { tabindex: 0, "aria-label": "The part in three dimensions. Arrow keys turn it, plus and minus come nearer and go back." });
  readonly picture = h("canvas", { class: "printed", "aria-hidden": "true" });
  readonly tip = h("div", { class: "tip", role: "status" });
  readonly legendPlace = h("div");
  readonly frame: HTMLElement;
  readonly quantities: Quantity[];
  readonly part: Part;
  private readonly stage: Stage;
  private readonly pins: Pins;
  private readonly axes = new Axes();
  private readonly bodyOf: (t: number) => number;
  private readonly radius: number;
  private settled = 0;
  private values: Float32Array = new Float32Array();
  loadCase: number;
  quantity: Quantity;
  cut: Cut = "off";
  share = 0;
  times = 0;
  onState: () => void = () => {};
  onRead: (hit: Hit) => void = () => {};

  constructor(private readonly context: Context) {
    this.loadCase = context.about.governing_case;
    this.quantities = quantities(context);
    this.quantity = this.quantities[0];
    this.bodyOf = bodyOfTetrahedron(context.about);
    this.frame = h("div", { class: "view" }, this.canvas);
    this.stage = new Stage(this.canvas);
    this.part = new Part(context.solid);
    this.pins = new Pins(this.stage, this.part);
    this.stage.scene.add(this.part.group);
    this.radius = this.part.box.getSize(new THREE.Vector3()).length() / 2;
    this.frame.append(this.pins.layer, this.axes.element, standButtons((stand) => this.standAt(stand)),
      h("p", { class: "hint" }, "Drag to turn, shift-drag to move, click to read a value"), this.tip, this.picture);
    this.stage.onDrawn = () => this.drawn();
    this.canvas.addEventListener("pointermove", (event) => this.point(event));
    this.canvas.addEventListener("pointerleave", () => this.tip.classList.remove("shown"));
    this.canvas.addEventListener("click", (event) => this.click(event));
    this.setLines();
  }

  /** The worst places of the load case that is shown, worst first. */
  worst(): ModePlace[] {
    return worstPlaces(this.context.summary.load_cases[this.loadCase]);
  }

  plane(): Plane | null {
    return planeOf(this.cut, this.share, this.worst()[0]?.position_mm ?? null, this.part.box);
  }

  async start(): Promise<void> {
    this.cut = this.worst().length ? "worst" : "off";
    this.part.setPlane(this.plane());
    this.faceCut();
    await this.recolour();
    this.stage.draw();
  }

  /** Stand before the section, a little to the side and above. */
  faceCut(): void {
    const plane = this.plane();
    if (plane && Math.abs(plane.normal[2]) < 0.9) {
      this.stage.orbit.azimuth = Math.atan2(plane.normal[1], plane.normal[0]) + 0.38;
      this.stage.orbit.elevation = 0.3;
      this.stage.frame(this.part.box);
      this.stage.redraw();
    } else this.standAt(stands.Corner);
  }

  standAt(stand: Stand): void {
    this.stage.standAt(stand, this.part.box);
  }

  /** Cut through a worst place and look at it. */
  show(place: Vector): void {
    this.cut = "worst";
    this.share = 0;
    this.part.setPlane(planeOf("worst", 0, place, this.part.box));
    this.faceCut();
    this.onState();
    this.canvas.focus({ preventScroll: true });
  }

  async setLoadCase(loadCase: number): Promise<void> {
    this.loadCase = loadCase;
    this.frame.dataset.waits = "yes";
    if (this.cut === "worst") this.setCut("worst", 0);
    await this.setTimes(this.times);
    await this.recolour();
  }

  async setQuantity(id: string): Promise<void> {
    this.quantity = this.quantities.find((quantity) => quantity.id === id)!;
    this.frame.dataset.waits = "yes";
    await this.recolour();
  }

  setCut(cut: Cut, share: number): void {
    const turned = cut !== this.cut;
    [this.cut, this.share] = [cut, share];
    this.part.setPlane(this.plane());
    if (turned && cut !== "off") this.faceCut();
    this.onState();
    this.stage.redraw();
  }

  async setTimes(times: number): Promise<void> {
    this.times = times;
    this.part.setDisplacement(times ? await displacement(this.context.fields, this.loadCase) : null, times);
    this.pins.move();
    this.onState();
    this.stage.redraw();
  }

  setHidden(bodies: Set<number>): void {
    this.part.setHidden((t) => bodies.has(this.bodyOf(t)));
    this.stage.redraw();
  }

  themeChanged(): void {
    this.setLines();
    this.stage.redraw();
  }

  private setLines(): void {
    const ink = getComputedStyle(document.documentElement).getPropertyValue("--edge").trim();
    this.part.setLineColour(ink || "#1c2226");
  }

  private async recolour(): Promise<void> {
    const { quantity, loadCase } = this;
    const values = await quantity.values(loadCase);
    if (quantity !== this.quantity || loadCase !== this.loadCase) return; // something else was chosen
    delete this.frame.dataset.waits;
    this.values = values;
    const scale = quantity.scale(values);
    this.part.setScale(scale);
    this.part.setField(values, quantity.nearest);
    this.legendPlace.replaceChildren(legend(scale, quantity.nearest ? new Set(values) : null));
    this.setPins();
    this.onState();
    this.stage.redraw();
  }

  private setPins(): void {
    this.pins.set(this.worst().map((mode, i) => ({
      label: String(i + 1),
      place: mode.position_mm,
      title: `${capital(this.wordsFor(mode.mode))}: ${factorText(mode.value)}, at ${placeText(mode.position_mm)} mm`,
      chosen: () => this.show(mode.position_mm),
    })));
  }

  wordsFor(mode: string): string {
    return this.context.about.modes.find((other) => other.name === mode)?.words ?? mode;
  }

  /** What the picture shows, for paper. */
  caption(): string {
    const title = caseTitle(this.context.summary.load_cases[this.loadCase]);
    return `${this.quantity.title}, load case ${title}${this.times ? `, movement times ${figures(this.times, 2)}` : ""}`;
  }

  private drawn(): void {
    this.pins.follow();
    clearTimeout(this.settled);
    // Which pins lie behind the part takes a search through the mesh: once the view rests.
    this.settled = setTimeout(() => this.pins.fade(this.radius), 80);
    this.axes.follow(this.stage.camera);
    this.frame.dataset.drawn = "yes";
  }

  private under(event: MouseEvent): Hit | null {
    const box = this.canvas.getBoundingClientRect();
    return this.part.under(this.stage.ray(event.clientX - box.left, event.clientY - box.top));
  }

  placeWords(hit: Hit): string {
    if (hit.face !== undefined) return this.context.about.faces[hit.face - 1] ?? `face ${hit.face}`;
    const body = this.context.summary.bodies[this.bodyOf(hit.tetrahedron)];
    return `inside ${body.name}`;
  }

  private point(event: PointerEvent): void {
    const hit = event.buttons === 0 ? this.under(event) : null;
    this.tip.classList.toggle("shown", hit !== null);
    if (!hit) return;
    const box = this.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    this.tip.replaceChildren(h("strong", {}, this.quantity.text(hit.read(this.values, this.quantity.nearest))), h("span", {}, this.placeWords(hit)));
    this.tip.style.transform = `translate(${Math.min(x + 14, box.width - 230)}px, ${Math.max(y - 62, 4)}px)`;
  }

  private click(event: MouseEvent): void {
    if (this.stage.orbit.dragged) return;
    const hit = this.under(event);
    if (hit) this.onRead(hit);
  }

  /** A picture for paper, in light colours and with the pins in it: a canvas of WebGL prints blank. */
  takePicture(): void {
    inLight(() => {
      this.setLines();
      this.stage.draw();
      this.pins.fade(this.radius);
      copyDrawn(this.canvas, this.picture, (context, pixels) => this.pins.draw(context, pixels));
    });
    this.themeChanged();
  }
}
