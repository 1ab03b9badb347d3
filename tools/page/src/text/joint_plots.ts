// The joint drawn: torques that do, contact round a seal, forces of the screws.
import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { JointHistory, ScrewGroup, TorqueWindow } from "../data/joint";
import { figures, three } from "../data/words";
import { s } from "./dom";

/** "1.2 N m", or the preload where no torque is known. */
export function tightness(overNominal: number, group: ScrewGroup): string {
  if (group.torque_nominal_Nmm !== null) return `${three((overNominal * group.torque_nominal_Nmm) / 1000)} N m`;
  return `${three(overNominal * (group.preload_nominal_N ?? NaN))} N of preload`;
}

/** A bar from the lowest to the highest torque that does, and a mark at the one asked for. */
export function windowBar(window: TorqueWindow, group: ScrewGroup): SVGSVGElement {
  const low = window.lowest?.over_nominal ?? 0;
  const high = window.highest?.over_nominal ?? null;
  // Words beside the last mark need room.
  const end = (window.empty ? 1.7 : 1.4) * Math.max(1, low, high ?? 0);
  const x = scaleLinear().domain([0, end]).range([8, 492]);
  const asked = x(1);
  const words = window.empty ? "no torque does" : `${tightness(low, group)} to ${high === null ? "no limit found" : tightness(high, group)}`;
  const mark = (at: number, text: string, anchor: string) => [
    s("line", { class: "end", x1: x(at), x2: x(at), y1: 22, y2: 44 }),
    s("text", { x: x(at), y: 60, "text-anchor": anchor }, text)];
  return s("svg", { viewBox: "0 0 500 66", class: "plot window", role: "img", "aria-label": `Torque window: ${words}; asked for ${tightness(1, group)}` },
    s("line", { class: "grid", x1: x(0), x2: x(end), y1: 33, y2: 33 }),
    window.empty ? null : s("rect", { class: "does", x: x(low), y: 26, width: Math.max(1, x(high ?? end) - x(low)), height: 14 }),
    ...(low > 0 ? mark(low, window.empty ? `seals from ${tightness(low, group)}` : tightness(low, group), window.empty ? "start" : "end") : []),
    ...(high === null ? [] : mark(high, window.empty ? `stands ${tightness(high, group)}` : tightness(high, group), window.empty ? "end" : "start")),
    s("line", { class: "asked", x1: asked, x2: asked, y1: 18, y2: 48 }),
    s("text", { class: "strong", x: asked, y: 13, "text-anchor": "middle" }, `asked for ${tightness(1, group)}`));
}

const size = { width: 640, height: 240, left: 46, right: 12, top: 24, bottom: 34 };

/** Contact round one seal in one state, the contact that is wanted, and where the screws are. */
export function contactPlot(history: JointHistory, seal: number, state: number, pressure: { name: string; per_MPa: number }): SVGSVGElement {
  const { angle_deg: angles, name } = history.seals[seal];
  const shown = history.states[state];
  const contact = shown.contact_MPa[seal].map((value) => (value === null ? NaN : value * pressure.per_MPa));
  const wanted = shown.contact_wanted_MPa[seal] * pressure.per_MPa;
  const x = scaleLinear([0, 360], [size.left, size.width - size.right]);
  const y = scaleLinear([0, Math.max(wanted, ...contact.filter(Number.isFinite), 1e-9)], [size.height - size.bottom, size.top]).nice(4);
  const path = line<number>((_, i) => x(angles[i]), (value) => y(value)).defined((value) => !Number.isNaN(value))(contact);
  const short = (value: number) => wanted > 0 && !(value >= wanted);
  return s("svg", { viewBox: `0 0 ${size.width} ${size.height}`, class: "plot wide", role: "img", "aria-label": `Contact round ${name}: ${figures(Math.min(...contact), 3)} to ${figures(Math.max(...contact), 3)} ${pressure.name}` },
    ...y.ticks(4).flatMap((t) => [
      s("line", { class: "grid", x1: size.left, x2: size.width - size.right, y1: y(t), y2: y(t) }),
      s("text", { x: size.left - 8, y: y(t) + 4, "text-anchor": "end" }, figures(t, 3))]),
    ...[0, 90, 180, 270, 360].map((t) => s("text", { x: x(t), y: size.height - 8, "text-anchor": t === 360 ? "end" : "middle" }, `${t}\u00b0`)),
    ...history.screws.flatMap((group) => group.angle_deg.map((angle) =>
      s("path", { class: "screw", d: `M${x(angle)} ${size.height - size.bottom - 8}l-4 8h8z` }))),
    wanted > 0 ? s("line", { class: "expected", x1: size.left, x2: size.width - size.right, y1: y(wanted), y2: y(wanted) }) : null,
    wanted > 0 ? s("text", { x: size.width - size.right, y: y(wanted) - 5, "text-anchor": "end" }, "needed to seal") : null,
    path === null ? null : s("path", { class: "curve", d: path }),
    ...contact.flatMap((value, i) => (short(value) ? [s("circle", { class: "short", cx: x(angles[i]), cy: y(Number.isNaN(value) ? 0 : value), r: 3.5 })] : [])));
}
