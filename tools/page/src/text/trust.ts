// Is the mesh fine enough, do the forces balance, how far are the page's own values rounded.
import { scaleLinear, scalePoint } from "d3-scale";
import { line } from "d3-shape";
import type { MeshPass, Summary } from "../data/summary";
import { factorText, figures, percent, three } from "../data/words";
import { h, list, s, section, table } from "./dom";

function passesPlot(passes: MeshPass[], expected: number | null): SVGSVGElement | null {
  const known = passes.filter((pass) => pass.safety_factor !== null);
  if (known.length < 2) return null;
  const ends = known.flatMap((p) => [p.safety_factor! - (p.safety_factor_error ?? 0), p.safety_factor! + (p.safety_factor_error ?? 0)]);
  const x = scalePoint(known.map((_, i) => i), [60, 440]);
  const y = scaleLinear([Math.min(...ends, expected ?? Infinity), Math.max(...ends, expected ?? -Infinity)], [150, 20]).nice(4);
  const path = line<MeshPass>((_, i) => x(i)!, (p) => y(p.safety_factor!))(known)!;
  return s("svg", { viewBox: "0 0 500 190", class: "plot", role: "img", "aria-label": "The factor from mesh to mesh" },
    ...y.ticks(4).flatMap((t) => [
      s("line", { class: "grid", x1: 44, x2: 460, y1: y(t), y2: y(t) }),
      s("text", { x: 36, y: y(t) + 4, "text-anchor": "end" }, figures(t, 3))]),
    ...known.map((p, i) => s("line", { class: "error", x1: x(i)!, x2: x(i)!, y1: y(p.safety_factor! - (p.safety_factor_error ?? 0)), y2: y(p.safety_factor! + (p.safety_factor_error ?? 0)) })),
    s("path", { class: "curve", d: path }),
    ...known.flatMap((p, i) => [
      s("circle", { cx: x(i)!, cy: y(p.safety_factor!), r: 4 }),
      s("text", { x: x(i)!, y: 178, "text-anchor": "middle" }, `${figures(p.unknowns / 1000, 3)} k`)]),
    expected === null ? null : s("line", { class: "expected", x1: 44, x2: 460, y1: y(expected), y2: y(expected) }));
}

export function trust(summary: Summary, rounding: string): HTMLElement {
  const { mesh, balance } = summary;
  const last = mesh.passes.at(-1);
  const place = summary.governing_place;
  const sentences = [
    last && summary.safety_factor_mesh_error !== null
      ? `The mesh may be off by ${figures(summary.safety_factor_mesh_error, 2)} of the factor, as estimated.` : "",
    place ? `Stress counts as a bead of ${three(place.bead_width_mm)} mm feels it; the value at a node alone would give a factor of ${factorText(place.raw_safety_factor)}.` : "",
    place && !place.converged ? `Not converged: elements there are ${three(place.mean_edge_mm)} mm long; a finer mesh may change the factor.` : "",
    mesh.extrapolated_safety_factor !== null ? `Extrapolated to no error the factor is ${three(mesh.extrapolated_safety_factor)}.` : "",
    mesh.refining_ended ? `There was no further mesh: ${mesh.refining_ended}.` : "",
  ];
  const plot = passesPlot(mesh.passes, mesh.extrapolated_safety_factor);
  return section("trust", "Is the mesh fine enough?",
    h("p", { class: "lead" }, sentences.filter(Boolean).join(" ")),
    plot ? h("figure", {}, plot, h("figcaption", {}, "The factor by the size of the mesh, in thousands of unknowns, with the estimated error.")) : null,
    table([{ title: "Check" }, { title: "Found", number: true }], [
      ["Forces in against forces out", `${percent(balance.force_error)} apart`],
      ["Moments in against moments out", `${percent(balance.moment_error)} apart`],
      ["Left over, balanced by inertia", `${percent(balance.carried_by_inertia)} of the load`],
      ["Left over by the solver", `${percent(balance.residual)} of the load`],
      ["Mesh volume against CAD", `${percent(balance.volume_error)} apart`],
      ["Elements through the wall", `${mesh.layers_min}, in a wall of ${three(mesh.wall_min_mm)} mm`],
      ["Size", `${mesh.tetrahedra} tetrahedra, ${mesh.unknowns} unknowns`],
    ]),
    rounding ? h("p", { class: "fine" }, rounding) : null,
    summary.notes.length ? list(summary.notes) : null);
}
