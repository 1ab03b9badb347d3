// Bodies, their strengths as they are in service, and every number that was assumed.
import type { Body, Summary } from "../data/summary";
import { capital, directionText, figures, three } from "../data/words";
import { h, section, table } from "./dom";
import type { PressureText } from "./pressures";

const strengthWords: Record<string, string> = {
  Xt_MPa: "in the layer, tension", Xc_MPa: "in the layer, compression", Zt_MPa: "across the layers, tension",
  Zc_MPa: "across the layers, compression", Sz_MPa: "shear between layers", yield_MPa: "yield", tensile_MPa: "tensile",
};

const standings: Record<string, string> = {
  measured: "measured", data_sheet: "data sheet", memory: "from memory", estimated: "estimated",
};

function body(one: Body, text: PressureText): HTMLElement {
  const { material } = one;
  const layered = "Zt_MPa" in material.strength_at_conditions;
  const strengths = Object.entries(material.strength_at_conditions);
  return h("div", { class: "body" },
    h("h3", {}, one.name),
    h("p", {}, `${material.title} (${material.card})${layered ? `, printed along ${directionText(one.print_direction)}` : ""}, ${three(one.mass_g)} g.`),
    table([{ title: "Strength at these conditions" }, { title: "", number: true }],
      strengths.map(([key, value]) => [capital(strengthWords[key] ?? key), text(value)])),
    material.knock_downs.length ? table(
      [{ title: "Takes away" }, { title: "From" }, { title: "Left", number: true }, { title: "Range", number: true }, { title: "By what rule" }],
      material.knock_downs.map((k) => [capital(k.cause), k.applies_to, `\u00d7 ${three(k.value)}`, `${three(k.low)} to ${three(k.high)}`, k.rule])) : null,
    material.assumptions.length ? h("details", {}, h("summary", {}, `${material.assumptions.length} numbers were assumed or stand on weak authority`),
      table(
        [{ title: "Quantity" }, { title: "Value", number: true }, { title: "Range", number: true }, { title: "Standing" }, { title: "By what rule" }],
        material.assumptions.map((a) => [
          a.quantity, `${figures(a.value, 4)} ${a.unit === "-" ? "" : a.unit}`, `${figures(a.low, 4)} to ${figures(a.high, 4)}`,
          standings[a.standing] ?? a.standing, a.rule]))) : null);
}

export function materials(summary: Summary, text: PressureText): HTMLElement {
  return section("materials", "What was assumed", ...summary.bodies.map((one) => body(one, text)));
}
