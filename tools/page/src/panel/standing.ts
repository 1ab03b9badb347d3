// The bodies of a run as they stand on the plate, each by its own print direction.
import type { Context } from "../data/quantities";
import { readSurface } from "../data/surface";
import { directionText } from "../data/words";
import { h, section } from "../text/dom";
import { overhangWords, printFacts } from "../text/printing";
import { bodyChoice } from "./body_choice";
import { PlateView } from "./plate_view";
import { sectionRow } from "./section_row";

export interface Standing {
  element: HTMLElement;
  /** Once it is in the page. */
  start: () => void;
  takePicture: () => void;
  themeChanged: () => void;
}

/** null where the part has no surface to show. */
export async function standing({ summary, about }: Context): Promise<Standing | null> {
  const { plate, arrays } = about;
  if (arrays.triangles.count === 0) return null;
  const view = new PlateView(plate, await readSurface(arrays, (face) => plate.body_of_face[face - 1]), (face) => about.faces[face - 1]);
  const facts = h("dl", { class: "facts", id: "facts" });
  const words = h("p", { class: "lead", role: "status" });
  const caption = h("p", { class: "printed caption" });
  const show = (position: number) => {
    const up = summary.bodies[position].print_direction;
    view.setBody(plate.bodies[position].id);
    view.stand(up, true);
    words.textContent = `${plate.bodies.length > 1 ? `${summary.bodies[position].name}: ` : ""}${directionText(up)} points up from the plate.`;
    facts.replaceChildren(...printFacts(plate.bodies[position].print!));
  };
  return {
    element: section("plate", "As it stands on the plate", words,
      h("div", { class: "workbench" },
        h("div", { class: "standing" }, view.frame, caption, view.legendPlace, facts),
        h("div", { class: "controls" }, bodyChoice(plate, "standing body", show), sectionRow("standing cut", (cut, share) => view.setCut(cut, share)))),
      h("p", { class: "fine" }, overhangWords(plate.overhang_angle_deg), " Which way up is stronger, crossgrain directions tells.")),
    start: () => {
      show(0);
      view.start();
    },
    takePicture: () => {
      view.takePicture();
      caption.textContent = view.caption();
    },
    themeChanged: () => view.themeChanged(),
  };
}
