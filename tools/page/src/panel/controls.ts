// The column beside the view: load case, colours, section, movement, bodies.
import type { Context } from "../data/quantities";
import { caseTitle } from "../data/summary";
import { figures } from "../data/words";
import { h } from "../text/dom";
import { type Cut, cuts, planeWords } from "./section_plane";
import type { Viewer } from "./viewer";

function group(title: string, state: HTMLElement | null, ...children: HTMLElement[]): HTMLElement {
  return h("fieldset", {}, h("legend", {}, title), ...(state ? [state] : []), ...children);
}

export function radio(name: string, text: string, checked: boolean, chosen: () => void): HTMLElement {
  return h("label", { class: "choice" }, h("input", { type: "radio", name, checked, change: chosen }), text);
}

export function slider(label: string, min: number, max: number, changed: (value: number) => void): HTMLInputElement {
  const input = h("input", { type: "range", min, max, step: (max - min) / 200, value: 0, "aria-label": label });
  input.addEventListener("input", () => changed(Number(input.value)));
  return input;
}

function loadCases({ summary }: Context, viewer: Viewer): HTMLElement {
  const select = h("select", { "aria-label": "Load case", change: () => void viewer.setLoadCase(Number(select.value)) },
    ...summary.load_cases.map((loadCase, i) => h("option", { value: i, selected: i === viewer.loadCase }, caseTitle(loadCase))));
  return group("Load case", null, select);
}

function colours(viewer: Viewer): HTMLElement {
  const others = viewer.quantities.filter((quantity) => !quantity.main);
  const select = h("select", { "aria-label": "Another stress" },
    h("option", { value: "" }, "Another stress \u2026"), ...others.map(({ id, title }) => h("option", { value: id }, title)));
  const main = viewer.quantities.filter((quantity) => quantity.main);
  const radios = main.map(({ id, title }) =>
    radio("quantity", title, id === viewer.quantity.id, () => {
      select.value = "";
      void viewer.setQuantity(id);
    }));
  const fieldset = group("Colour by", null, ...radios, select);
  select.addEventListener("change", () => {
    if (!select.value) return;
    fieldset.querySelectorAll("input").forEach((input) => (input.checked = false));
    void viewer.setQuantity(select.value);
  });
  return fieldset;
}

const cutNames: Record<Cut, string> = { off: "Off", worst: "Worst place", x: "x", y: "y", z: "z" };

function sectionGroup(viewer: Viewer): { element: HTMLElement; update: () => void } {
  const state = h("output", { class: "state" });
  const place = slider("Place of the section", -1, 1, (share) => viewer.setCut(viewer.cut, share));
  const radios = cuts.map((cut) =>
    radio("cut", cutNames[cut], false, () => {
      place.value = "0";
      viewer.setCut(cut, 0);
    }));
  const element = group("Section", state, h("div", { class: "row" }, ...radios), place);
  const update = () => {
    const plane = viewer.plane();
    state.textContent = plane ? planeWords(viewer.cut, plane) : "off";
    place.disabled = plane === null;
    place.value = String(viewer.share);
    cuts.forEach((cut, i) => (radios[i].querySelector("input")!.checked = cut === viewer.cut));
  };
  return { element, update };
}

function movement({ summary }: Context, viewer: Viewer): { element: HTMLElement; update: () => void } {
  const state = h("output", { class: "state" });
  const size = viewer.part.box.max.distanceTo(viewer.part.box.min);
  const largest = Math.max(...summary.load_cases.map((c) => c.displacement_max_mm ?? 0));
  // At the slider's end the greatest movement is a tenth of the part's size.
  const full = largest > 0 ? (0.1 * size) / largest : 1;
  const input = slider("Movement, exaggerated", 0, 1, (share) => void viewer.setTimes(share * full));
  const element = group("Movement, exaggerated", state, input);
  return { element, update: () => (state.textContent = viewer.times ? `\u00d7 ${figures(viewer.times, 2)}` : "off") };
}

/** A box for each body, to hide it; nothing where there is only one. */
export function bodyBoxes(names: string[], changed: (hidden: Set<number>) => void): HTMLElement | null {
  if (names.length < 2) return null;
  const hidden = new Set<number>();
  return group("Bodies", null, ...names.map((name, i) => {
    const box = h("input", { type: "checkbox", checked: true });
    box.addEventListener("change", () => {
      if (box.checked) hidden.delete(i);
      else hidden.add(i);
      changed(hidden);
    });
    return h("label", { class: "choice" }, box, name);
  }));
}

export function controls(context: Context, viewer: Viewer): HTMLElement {
  const cut = sectionGroup(viewer);
  const move = movement(context, viewer);
  viewer.onState = () => {
    cut.update();
    move.update();
  };
  viewer.onState();
  const column = h("div", { class: "controls" }, loadCases(context, viewer), colours(viewer), cut.element, move.element);
  const parts = bodyBoxes(context.summary.bodies.map((body) => body.name), (hidden) => viewer.setHidden(hidden));
  if (parts) column.append(parts);
  return column;
}
