// The view to click faces on.
import type { PartFaces } from "../data/part_faces";
import type { PartSurface } from "../data/surface";
import { h } from "../text/dom";
import { Part } from "../view/part";
import { Stage } from "../view/stage";
import { Axes } from "./axes";
import { type Cut, planeOf } from "./section_plane";
import { standButtons, stands } from "./stands";

// Pale, and told apart by lightness as well; the chosen face's blue is none of them.
const pale = ["#b9cdd8", "#ead7d0", "#cfe0d0", "#d9cfe2", "#e9dfc0", "#c5dedd", "#dcc9b8", "#e4e4e4"];

export class FacesView {
  readonly canvas = h("canvas", { tabindex: 0, "aria-label": "The part in three dimensions. Arrow keys turn it, plus and minus come nearer and go back; the list beside it chooses faces by keys." });
  readonly tip = h("div", { class: "tip", role: "status" });
  readonly frame = h("div", { class: "view" }, this.canvas);
  private readonly axes = new Axes();
  private readonly stage: Stage;
  private readonly part: Part;
  private hovered = 0;
  onClick: (face: number) => void = () => {};
  onHover: (face: number) => void = () => {};

  constructor(
    private readonly about: PartFaces,
    { solid, skin }: PartSurface,
    private readonly chosen: Set<number>,
  ) {
    this.stage = new Stage(this.canvas);
    this.part = new Part(solid, skin);
    this.stage.scene.add(this.part.group);
    this.part.setScale({ title: "", unit: "", colours: pale, low: 0, high: pale.length, names: pale, ticks: [] });
    this.part.setFaceValues((face) => face % pale.length);
    this.frame.append(this.axes.element, standButtons((stand) => this.stage.standAt(stand, this.part.box)),
      h("p", { class: "hint" }, "Drag to turn, click to choose a face"), this.tip);
    this.stage.onDrawn = () => {
      this.axes.follow(this.stage.camera);
      this.frame.dataset.drawn = "yes";
    };
    this.canvas.addEventListener("pointermove", (event) => this.point(event));
    this.canvas.addEventListener("pointerleave", () => this.hover(0));
    this.canvas.addEventListener("click", (event) => {
      const face = this.stage.orbit.dragged ? 0 : this.faceUnder(event);
      if (face) this.onClick(face);
    });
  }

  start(): void {
    this.stage.standAt(stands.Corner, this.part.box);
    this.mark();
  }

  setCut(cut: Cut, share: number): void {
    this.part.setPlane(planeOf(cut, share, null, this.part.box));
    this.stage.redraw();
  }

  setHidden(bodies: Set<number>): void {
    this.part.setHidden((body) => bodies.has(body));
    this.stage.redraw();
  }

  themeChanged(): void {
    this.stage.redraw();
  }

  /** Show what is chosen, and what the pointer or the list is on. */
  mark(): void {
    this.part.setChosen((face) => (this.chosen.has(face) ? 1 : face === this.hovered ? 0.25 : 0));
    this.stage.redraw();
  }

  hover(face: number): void {
    if (face === this.hovered) return;
    this.hovered = face;
    this.tip.classList.toggle("shown", face !== 0);
    this.onHover(face);
    this.mark();
  }

  private faceUnder(event: MouseEvent): number {
    const box = this.canvas.getBoundingClientRect();
    return this.part.under(this.stage.ray(event.clientX - box.left, event.clientY - box.top))?.face ?? 0;
  }

  private point(event: PointerEvent): void {
    if (event.buttons !== 0) return;
    const face = this.faceUnder(event);
    this.hover(face);
    if (!face) return;
    const box = this.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const [name, ...what] = this.about.faces[face - 1].split(", ");
    this.tip.replaceChildren(h("strong", {}, name), h("span", {}, what.join(", ")));
    this.tip.style.transform = `translate(${Math.min(x + 14, box.width - 230)}px, ${Math.max(y - 62, 4)}px)`;
  }
}
