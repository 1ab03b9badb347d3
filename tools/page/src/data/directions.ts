// What the page of print directions holds (tools/results/directions.schema.json, directions_page.cpp).
import { dot } from "./half_sphere";
import type { PlateRules, Print } from "./plate";
import type { Arrays } from "./solid";
import type { ModePlace, Range } from "./summary";
import type { Vector } from "./vector";

/** A direction that was solved fully. */
export interface DirectionRow extends Print {
  name: string;
  /** null: each body stands as in the case. */
  direction: Vector | null;
  safety_factor: Range;
  governing: ModePlace | null;
  governing_case: string;
  allowable_pressure_MPa: number | null;
  displacement_max_mm: number;
}

export interface Directions {
  title: string;
  target_safety_factor: number;
  overhang_angle_deg: number;
  directions: DirectionRow[];
  map?: { directions: number; solved: number; within_tolerance: boolean };
}

/** A direction of the map; of it and its opposite the one with less overhang. */
export interface MapNode {
  up: Vector;
  factor: number | null;
  mode: string | null;
  /** Relative, estimated. */
  error: number;
  unbeaten: boolean;
  print: Print;
}

export interface AboutDirections {
  case_file: string;
  pressure_unit: { name: string; per_MPa: number };
  modes: { name: string; words: string }[];
  faces: string[];
  plate: PlateRules;
  map: { nodes: MapNode[]; reliance: string } | null;
  arrays: Arrays;
}

/** The one that is looked at. */
export type Chosen = { row: DirectionRow } | { node: MapNode };

/** @param own  that of the body that is looked at, in the case. */
export const upOf = (chosen: Chosen, own: Vector): Vector => ("row" in chosen ? chosen.row.direction ?? own : chosen.node.up);
export const printOf = (chosen: Chosen): Print => ("row" in chosen ? chosen.row : chosen.node.print);

const strength = (row: DirectionRow): number => row.safety_factor.value ?? Infinity;

export const strongestFirst = (rows: DirectionRow[]): DirectionRow[] => [...rows].sort((a, b) => strength(b) - strength(a));

/** The case's own print direction stands first where the case does not name it. */
export const ownRow = ({ directions }: Directions): DirectionRow | null =>
  directions.find(({ name }) => name === "as in the case") ?? null;

/** Between two directions [degrees]; null where bodies have their own. */
export const angleBetween = (a: Vector | null, b: Vector | null): number | null =>
  a && b && (Math.acos(Math.max(-1, Math.min(1, dot(a, b) / Math.hypot(...a) / Math.hypot(...b)))) * 180) / Math.PI;
