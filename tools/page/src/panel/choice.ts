// The faces that were chosen: their line for a case file, and the lists to choose from.
import type { Hole, PartFaces } from "../data/part_faces";
import { figures, three } from "../data/words";
import { h, section } from "../text/dom";

/** The line to paste; by name where a name means just these faces, since numbers change with the CAD. */
export function tomlLine(about: PartFaces, chosen: Set<number>): string {
  const ids = [...chosen].sort((a, b) => a - b);
  const names = new Set(ids.map((id) => about.geometry.faces[id - 1].name));
  const [name] = names;
  const alike = about.geometry.faces.filter((face) => face.name === name).length;
  if (ids.length > 0 && names.size === 1 && name !== "" && alike === ids.length)
    return `faces = { name = ${JSON.stringify(name)} }`;
  return `faces = { ids = [${ids.join(", ")}] }`;
}

const facesOf = (hole: Hole): number[] => [...hole.wall, ...(hole.floor === null ? [] : [hole.floor])];

export class Choice {
  readonly element: HTMLElement;
  private readonly boxes = new Map<number, HTMLInputElement>();
  private readonly rows = new Map<number, HTMLElement>();
  private readonly line = h("code", {});
  private readonly count = h("p", { class: "lead", role: "status" });
  onChange: () => void = () => {};
  onPoint: (face: number) => void = () => {};

  constructor(
    private readonly about: PartFaces,
    private readonly chosen: Set<number>,
  ) {
    const copy = h("button", { type: "button", class: "link", click: () => void navigator.clipboard?.writeText(tomlLine(about, chosen)) }, "Copy");
    const clear = h("button", { type: "button", class: "link", click: () => this.choose([...chosen], false) }, "Clear");
    this.element = h("div", { class: "controls choice-list" },
      section("chosen", "Chosen faces", this.count, h("pre", { tabindex: 0 }, this.line), h("p", { class: "actions" }, copy, clear)),
      this.groups(),
      section("faces", "All faces", this.faceList()));
    this.update();
  }

  toggle(face: number): void {
    this.choose([face], !this.chosen.has(face));
    this.rows.get(face)?.scrollIntoView({ block: "nearest" });
  }

  choose(faces: number[], on: boolean): void {
    for (const face of faces) {
      if (on) this.chosen.add(face);
      else this.chosen.delete(face);
    }
    this.update();
    this.onChange();
  }

  point(face: number): void {
    for (const [id, row] of this.rows) row.classList.toggle("pointed", id === face);
  }

  private update(): void {
    for (const [id, box] of this.boxes) box.checked = this.chosen.has(id);
    const area = [...this.chosen].reduce((sum, id) => sum + this.about.geometry.faces[id - 1].area_mm2, 0);
    this.count.textContent = this.chosen.size ? `${this.chosen.size} chosen, ${figures(area, 4)} mm\u00b2` : "Click on the part, or choose from the lists.";
    this.line.textContent = tomlLine(this.about, this.chosen);
  }

  /** Holes and cavities choose all of their faces at once. */
  private groups(): HTMLElement {
    const { holes, closed_cavities: cavities, wetted } = this.about.geometry;
    const entry = (title: string, faces: number[]) =>
      h("li", {}, h("button", { type: "button", class: "link", click: () => this.choose(faces, !faces.every((face) => this.chosen.has(face))) }, title));
    const entries = [
      ...(wetted ? [entry(`What the fluid wets, ${wetted.faces.length} faces`, wetted.faces)] : []),
      ...cavities.map((cavity, i) => entry(`Closed cavity ${i + 1}, ${three(cavity.volume_mm3)} mm\u00b3`, cavity.faces)),
      ...holes.map((hole) => entry(`Hole ${hole.id}, ${three(hole.diameter_mm)} mm, ${hole.through ? "through" : `${three(hole.depth_mm)} mm deep`}`, facesOf(hole))),
    ];
    return section("holes", "Holes and cavities", entries.length ? h("ul", { class: "groups" }, ...entries) : h("p", { class: "lead" }, "None was found."));
  }

  private faceList(): HTMLElement {
    const rows = this.about.geometry.faces.map(({ id, area_mm2 }) => {
      const box = h("input", { type: "checkbox" });
      box.addEventListener("change", () => this.choose([id], box.checked));
      this.boxes.set(id, box);
      const row = h("label", { class: "face" }, box, h("span", {}, this.about.faces[id - 1].replace(/^face /, "")), h("span", { class: "area" }, `${figures(area_mm2, 4)} mm\u00b2`));
      row.addEventListener("pointerenter", () => this.onPoint(id));
      box.addEventListener("focus", () => this.onPoint(id));
      this.rows.set(id, row);
      return row;
    });
    return h("div", { class: "faces", tabindex: 0, role: "group", "aria-label": "All faces" }, ...rows);
  }
}
