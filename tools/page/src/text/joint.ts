// Does the joint stay shut: the torques that do, contact round the seals, screws, every check.
import { coverOf, type Joint, type JointLine, stateTitle } from "../data/joint";
import type { About, Summary } from "../data/summary";
import type { Vector } from "../data/vector";
import { capital, figures, three } from "../data/words";
import { h, list, section, table } from "./dom";
import { contactPlot, tightness, windowBar } from "./joint_plots";

type Words = (mode: string) => string;

const standings: Record<string, string> = {
  standard: "a standard's", given: "as given", data_sheet: "data sheet", memory: "from memory", estimated: "estimated",
};

function valueText(value: number | null, unit: string, { name, per_MPa }: About["pressure_unit"]): string {
  if (value === null) return "none";
  if (unit === "MPa") return `${three(value * per_MPa)} ${name}`;
  if (unit === "N mm") return `${three(value / 1000)} N m`;
  return unit === "-" ? three(value) : `${three(value)} ${unit}`;
}

const when = (line: JointLine): string =>
  line.state ? line.state + (line.preload ? `, ${line.preload} preload` : "") : "always";

function windows(joint: Joint, wordsFor: Words): HTMLElement | null {
  const window = joint.torque_window;
  if (!window) return null;
  const because = (bound: typeof window.lowest, less: string) =>
    bound ? `${less}: ${wordsFor(bound.mode)} of ${bound.owner}, ${bound.state}${bound.extrapolated ? " (beyond the preloads that were solved for: run the case again with it)" : ""}.` : "";
  return h("div", { id: "torque" },
    h("h3", {}, "Torque"),
    h("p", { class: "lead" }, window.never_satisfied
      ? `Whatever the torque, it fails by: ${wordsFor(window.never_satisfied)}.`
      : window.empty ? "No torque both seals and holds." : "From sealing at the least preload to what holds at the greatest."),
    ...(window.never_satisfied ? [] : joint.groups.map((group) => h("figure", {}, windowBar(window, group),
      h("figcaption", {}, `${group.screws} screws of ${group.name}, asked for ${tightness(1, group)}`)))),
    list([because(window.lowest, window.empty ? "Asks for so much" : "Less than that"), because(window.highest, window.empty ? "Stands no more" : "More than that"),
      ...joint.would_open_the_window.map((advice) => capital(`${advice.name.replaceAll("_", " ")}: ${advice.opens ? "yes, " : ""}${advice.words}.`))].filter(Boolean)));
}

/** One plot a seal; the states are chosen from a list, the leakiest first. */
function contacts(joint: Joint, about: About): HTMLElement[] {
  const { history } = joint;
  return history.seals.map((seal, i) => {
    const leakiest = history.states.reduce((worst, state, k) => (coverOf(state, i) < coverOf(history.states[worst], i) ? k : worst), 0);
    const place = h("div", {});
    const said = h("figcaption", {});
    const show = (state: number) => {
      place.replaceChildren(contactPlot(history, i, state, about.pressure_unit));
      const cover = coverOf(history.states[state], i);
      said.textContent = `${capital(stateTitle(history.states[state]))}. Greatest contact across the seal, in ${about.pressure_unit.name}, by the angle about its middle; triangles are screws.` +
        (Number.isFinite(cover) ? ` The least is ${figures(100 * cover, 3)} % of what is needed there.` : "");
    };
    const choice = h("select", { id: `seal-state-${i}`, change: () => show(Number(choice.value)) },
      ...history.states.map((state, k) => h("option", { value: k, selected: k === leakiest }, stateTitle(state))));
    show(leakiest);
    return h("div", { class: "contact" },
      h("h3", {}, `Contact round ${seal.name}`),
      h("label", { class: "choice", for: `seal-state-${i}` }, "State ", choice),
      h("figure", {}, place, said));
  });
}

function screwForces(joint: Joint): HTMLElement | null {
  const { history } = joint;
  const rows = history.states.flatMap((state) => state.screw_force_N.map((forces, g) => {
    const known = forces.filter((force): force is number => force !== null);
    const mean = known.reduce((sum, force) => sum + force, 0) / known.length;
    return [capital(stateTitle(state)), history.screws[g].name, three(Math.min(...known)), three(mean), three(Math.max(...known))];
  }));
  if (!rows.length) return null;
  return h("details", {}, h("summary", {}, "Screw forces, state by state"), table(
    [{ title: "State" }, { title: "Screws" }, { title: "Least, N", number: true }, { title: "Mean, N", number: true }, { title: "Greatest, N", number: true }], rows));
}

function checks(joint: Joint, about: About, wordsFor: Words, show: ((place: Vector) => void) | null): HTMLElement {
  const name = (line: JointLine) => {
    const words = capital(wordsFor(line.mode));
    const place = line.place_mm;
    return place && show ? h("button", { type: "button", class: "link", click: () => show(place) }, words) : words;
  };
  return table(
    [{ title: "Check" }, { title: "Of" }, { title: "Found", number: true }, { title: "Limit", number: true }, { title: "Used", number: true }, { title: "Worst in" }, { title: "Limit is" }],
    joint.lines.map((line) => [
      h("span", { class: line.holds ? "holds" : "broken" }, line.holds ? null : "No: ", name(line)),
      line.owner,
      valueText(line.value, line.unit, about.pressure_unit),
      `${line.must_reach ? "at least" : "at most"} ${valueText(line.limit, line.unit, about.pressure_unit)}`,
      line.used === null ? "nothing left" : `${figures(100 * line.used, 3)} %`,
      when(line),
      standings[line.limit_standing] ?? line.limit_standing]));
}

/** @param show  turns the view to a place; null without a view. */
export function jointSection(summary: Summary, about: About, show: ((place: Vector) => void) | null): HTMLElement | null {
  const joint = summary.joint;
  if (!joint) return null;
  const wordsFor: Words = (mode) => about.joint_modes.find((other) => other.name === mode)?.words ?? mode;
  const broken = joint.lines.filter((line) => !line.holds);
  return section("joint", "Does the joint stay shut?",
    h("p", { class: "lead" }, joint.holds ? "The joint holds in every state that was looked at." : "The joint does not hold."),
    broken.length ? list(broken.map((line) =>
      `${capital(wordsFor(line.mode))}, ${line.owner}: ${valueText(line.value, line.unit, about.pressure_unit)} where ${line.must_reach ? "it takes at least" : "it stands at most"} ${valueText(line.limit, line.unit, about.pressure_unit)}${line.note ? `; it ${line.note}` : ""}. What helps: ${line.remedy}.`)) : null,
    checks(joint, about, wordsFor, show),
    windows(joint, wordsFor),
    ...contacts(joint, about),
    screwForces(joint));
}
