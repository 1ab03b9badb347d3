// What the page uses of summary.json (tools/results/summary.schema.json says what each key means).
import type { Vector } from "./vector";

export interface Range {
  value: number | null;
  low: number | null;
  high: number | null;
}

export interface ModePlace extends Range {
  /** The factor may be off by so much for the mesh; null: not known. */
  mesh_error: number | null;
  mode: string;
  position_mm: Vector;
  body: string;
  face: number | null;
  stress_material_axes_MPa: Record<"11" | "22" | "33" | "23" | "13" | "12", number | null>;
  stress_basis: string;
}

export interface Judgement extends Range {
  /** Of the mode that governs. */
  mesh_error: number | null;
  applies: boolean;
  limited_by: string;
  modes: Record<string, ModePlace>;
  near_artificial_supports: ModePlace[];
  under_screw_heads: ModePlace[];
}

export interface ConstantEffect {
  meaning: string;
  safety_factor_at_low: number | null;
  safety_factor_at_high: number | null;
}

export interface LoadCase {
  name: string;
  kind: string;
  bound: string;
  safety_factor: Judgement;
  pressure_factor: Judgement;
  allowable_pressure_MPa: number | null;
  allowable_limited_by: string;
  distrust: string[];
  displacement_max_mm: number | null;
}

export interface Assumption {
  quantity: string;
  value: number;
  low: number;
  high: number;
  unit: string;
  standing: string;
  rule: string;
}

export interface KnockDown {
  cause: string;
  applies_to: string;
  value: number;
  low: number;
  high: number;
  rule: string;
}

export interface Body {
  name: string;
  mass_g: number;
  print_direction: Vector;
  material: {
    card: string;
    title: string;
    strength_at_conditions: Record<string, number>;
    assumptions: Assumption[];
    knock_downs: KnockDown[];
  };
}

export interface HandScrewForce {
  screws: string;
  count: number;
  hand_N: number;
  joint_N: number;
  joint_solved: boolean;
  preload_N: number;
  hand_opening_MPa: number;
  differs: string;
}

export interface HandComparison {
  shape: string;
  faces: number[];
  formula: string;
  hand_MPa: number;
  membrane_MPa: number;
  membrane_and_bending_MPa: number;
  differs: string;
  reason: string;
}

export interface HandCalculation {
  shape: string;
  formula: string;
  stress_MPa: number;
  safety_factor: number;
  strength: string;
  isotropic_with_build_strength: Range;
  chain: { from: string; to: string; ratio: number }[];
  sentence: string;
  comparisons: HandComparison[];
  screw_forces: HandScrewForce[];
}

export interface MeshPass {
  unknowns: number;
  safety_factor: number | null;
  safety_factor_error: number | null;
  energy_error_fraction: number | null;
  mean_edge_at_place_mm: number | null;
}

export interface Summary {
  program_version: string;
  title: string;
  verdict: "pass" | "marginal" | "fail" | "not_trusted";
  verdict_sentence: string;
  distrust: string[];
  warnings: string[];
  target_safety_factor: number;
  safety_factor: Range;
  pressure_factor: Range;
  /** The greatest first. */
  constant_effects: ConstantEffect[];
  governing: (ModePlace & { load_case: string }) | null;
  safety_factor_mesh_error: number | null;
  governing_place: { bead_width_mm: number; mean_edge_mm: number; converged: boolean; raw_safety_factor: number | null } | null;
  working_pressure_MPa: number | null;
  allowable_pressure_MPa: number | null;
  allowable_limited_by: string;
  proof_pressure_MPa: number | null;
  proof_breaks_limit: boolean;
  proof_statement: string;
  cavity_volume_mm3: number | null;
  stored_energy_J: { total: number; fluid: number; wall: number; unbled_air: number } | null;
  load_cases: LoadCase[];
  bodies: Body[];
  openings: { pressure: string; opening: string; thrust_N: Vector; carried_by: string }[];
  reactions: { support: string; load_case: string; force_N: Vector }[];
  hand_calculation: HandCalculation | null;
  joint: import("./joint").Joint | null;
  buckling: { applies: boolean; statement: string };
  balance: Record<string, number | null>;
  mesh: {
    unknowns: number;
    tetrahedra: number;
    layers_min: number;
    wall_min_mm: number;
    passes: MeshPass[];
    extrapolated_safety_factor: number | null;
    refining_ended: string;
  };
  notes: string[];
  cautions: string[];
  case_file: string;
  settings: { name: string; value: string }[];
}

/** Which constant to measure, as summary.md tells it. */
export interface ConstantsWords {
  /** The first words, round the name of the constant that matters most. */
  before: string;
  name: string;
  after: string;
  /** Of the first of `constant_effects`, those that matter. */
  rows: { name: string; known: string; factor: string; how: string }[];
  notes: string;
}

/** What the page knows besides. */
export interface About {
  governing_case: number;
  pressure_unit: { name: string; per_MPa: number };
  modes: { name: string; words: string }[];
  joint_modes: { name: string; words: string }[];
  faces: string[];
  bodies: { tetrahedra: number }[];
  constants: ConstantsWords | null;
  plate: import("./plate").PlateRules;
  bits: number;
  middles: boolean;
  /** Of each load case. */
  sums: import("./fields").Sum[];
  arrays: import("./solid").Arrays;
}

export const caseTitle = (loadCase: LoadCase): string =>
  loadCase.bound ? `${loadCase.name} (${loadCase.bound})` : loadCase.name;

/** The worse of the factors on all loads and on the pressure alone; null counts as no limit. */
export function worseOf(a: Range, b: Range): Range {
  const least = (p: number | null, q: number | null) => (p === null ? q : q === null ? p : Math.min(p, q));
  return { value: least(a.value, b.value), low: least(a.low, b.low), high: least(a.high, b.high) };
}

/** The worst place of each way of failing that has one, worst first; a second opinion comes last. */
export function worstPlaces(loadCase: LoadCase | undefined): ModePlace[] {
  const modes = Object.values(loadCase?.safety_factor.modes ?? {}).filter((mode) => mode.value !== null);
  const opinion = (mode: ModePlace) => Number(mode.mode === "tsai_wu");
  return modes.sort((a, b) => opinion(a) - opinion(b) || a.value! - b.value!);
}
