// The reader's own formula beside the field.
import type { HandCalculation, Summary } from "../data/summary";
import { factorText, figures, three, worseOfValue } from "../data/words";
import { h, section, table } from "./dom";
import type { PressureText } from "./pressures";

function chain(hand: HandCalculation): HTMLElement {
  return h("ol", { class: "chain" }, ...hand.chain.map((step) =>
    h("li", {}, h("strong", {}, `\u00d7 ${three(step.ratio)}`), ` ${step.to}`)));
}

function comparisons(hand: HandCalculation, text: PressureText): HTMLElement | null {
  if (hand.comparisons.length === 0) return null;
  return table(
    [{ title: "Recognised shape" }, { title: "By hand", number: true }, { title: "Computed, mean", number: true },
      { title: "With bending", number: true }, { title: "Why they differ" }],
    hand.comparisons.map((c) => [c.shape, text(c.hand_MPa), text(c.membrane_MPa), text(c.membrane_and_bending_MPa), c.reason || "they agree within 15 %"]));
}

function screwCircles(hand: HandCalculation, text: PressureText): HTMLElement | null {
  if (hand.screw_forces.length === 0) return null;
  return table(
    [{ title: "Screw circle" }, { title: "Of the fluid, each, by hand", number: true }, { title: "Computed", number: true },
      { title: "Preload", number: true }, { title: "Used up by, by hand", number: true }, { title: "Why they differ" }],
    hand.screw_forces.map((f) => [`${f.screws}, ${f.count}`, `${three(f.hand_N)} N`, `${f.joint_solved ? "" : "0 to "}${three(f.joint_N)} N`,
      `${three(f.preload_N)} N`, text(f.hand_opening_MPa), f.differs || "they agree within 15 %"]));
}

export function handCalculation(summary: Summary, text: PressureText): HTMLElement | null {
  const hand = summary.hand_calculation;
  if (!hand) return null;
  const ownFactor = hand.safety_factor > 0;
  return section("hand", "Beside the hand calculation",
    h("p", { class: "lead" }, hand.sentence),
    ownFactor
      ? h("dl", { class: "figures" },
          h("div", {}, h("dt", {}, `by hand, ${hand.shape}`), h("dd", {}, figures(hand.safety_factor, 3))),
          h("div", {}, h("dt", {}, "isotropic, with the build strength"), h("dd", {}, factorText(hand.isotropic_with_build_strength.value))),
          h("div", {}, h("dt", {}, "this run"), h("dd", {}, worseOfValue(summary))))
      : null,
    ownFactor ? h("p", {}, `By hand: ${hand.formula} = ${text(hand.stress_MPa)}, against ${hand.strength}. Step by step the factor changes:`) : null,
    hand.chain.length ? chain(hand) : null,
    comparisons(hand, text),
    screwCircles(hand, text));
}
