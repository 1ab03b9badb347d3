// The page to click faces on, from top to bottom.
import { readJson } from "./data/blocks";
import type { PartFaces } from "./data/part_faces";
import { readSurface } from "./data/surface";
import { Choice } from "./panel/choice";
import { bodyBoxes } from "./panel/controls";
import { FacesView } from "./panel/faces_view";
import { sectionRow } from "./panel/section_row";
import { themeButton } from "./panel/theme";
import { h, list } from "./text/dom";

export async function faces(): Promise<void> {
  const about = readJson<PartFaces>("page");
  const name = about.geometry.file.split("/").at(-1)!;
  document.title = `Faces of ${name}`;
  const chosen = new Set<number>();
  const choice = new Choice(about, chosen);
  let view: FacesView | null = null;
  try {
    view = new FacesView(about, await readSurface(about.arrays, (face) => about.geometry.faces[face - 1].body), chosen);
  } catch (problem) {
    // The lists choose faces without a picture.
    console.warn(problem instanceof Error ? problem.message : problem);
  }
  document.body.append(
    h("header", {}, h("h1", {}, name), h("p", {}, `${about.geometry.faces.length} faces, ${about.geometry.bodies.length === 1 ? "one body" : `${about.geometry.bodies.length} bodies`}`),
      h("nav", { "aria-label": "Page" }, themeButton(() => view?.themeChanged()))),
    h("main", {},
      about.geometry.warnings.length ? list(about.geometry.warnings) : null,
      h("div", { class: "workbench picker" }, view ? h("div", {}, view.frame, sectionRow("cut", (cut, share) => view!.setCut(cut, share)), bodyBoxes(about.geometry.bodies.map((body) => body.name), (hidden) => view.setHidden(new Set([...hidden].map((i) => about.geometry.bodies[i].id))))) : h("p", { class: "fine" }, "This browser shows no three-dimensional view (it offers no WebGL); the lists choose faces all the same."), choice.element)));
  if (!view) return;
  const shown = view;
  shown.onClick = (face) => choice.toggle(face);
  shown.onHover = (face) => choice.point(face);
  choice.onChange = () => shown.mark();
  choice.onPoint = (face) => shown.hover(face);
  shown.start();
}
