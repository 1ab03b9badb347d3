// What the page of print directions holds (tools/results/directions.schema.json, directions_page.cpp).
import { dot } from "./half_sphere";
import type { PlateRules, Print } from "./plate";
import type { Arrays } from "./solid";
import type { ModePlace, Range } from "./summary";
import type { Vector } from "./vector";

/** A direction that was solved fully. */
export interface DirectionRow extends Print {
  name: string;
  /** null: each body has its own. */
  direction: Vector | null;
  of_bodies: { body: number; name: string; direction: Vector }[];
  safety_factor: Range;
  /** null: no limit, or not to be told. */
  safety_factor_mesh_error: number | null;
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
  maps: { print: string; directions: number; within_tolerance: boolean; own_factors: { row: string }[] }[];
}

/** Bodies printed in one piece, and every direction of their map. */
export interface PrintMap {
  print: string;
  /** By number. */
  bodies: number[];
  /** Their names without endings. */
  files: string;
  nodes: MapNode[];
  reliance: string;
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
  /** In the order of directions.json. */
  maps: PrintMap[];
  /** Where solving showed that the maps' frozen joint is not the one that there is. */
  joint: { row: string; words: string }[];
  arrays: Arrays;
}

/** The one that is looked at. */
export type Chosen = { row: DirectionRow } | { node: MapNode; map: PrintMap };

/** A body that is printed. */
export interface PrintedBody {
  id: number;
  name: string;
  /** In the case. */
  print_direction?: Vector;
}

export const directionOf = (row: DirectionRow, body: number): Vector | null =>
  row.direction ?? row.of_bodies.find((of) => of.body === body)?.direction ?? null;

/** How a body stands; those that a map does not turn stand as in the case. */
export function upOf(chosen: Chosen, { id, print_direction }: PrintedBody): Vector {
  const own = print_direction!;
  if ("row" in chosen) return directionOf(chosen.row, id) ?? own;
  return chosen.map.bodies.includes(id) ? chosen.node.up : own;
}
export const printOf = (chosen: Chosen): Print => ("row" in chosen ? chosen.row : chosen.node.print);

const strength = (row: DirectionRow): number => row.safety_factor.value ?? Infinity;

export const strongestFirst = (rows: DirectionRow[]): DirectionRow[] => [...rows].sort((a, b) => strength(b) - strength(a));

/** The case's own print direction stands first where the case does not name it. */
export const ownRow = ({ directions }: Directions): DirectionRow | null =>
  directions.find(({ name }) => name === "as in the case") ?? null;

/** Between two directions [degrees]; null where bodies have their own. */
export const angleBetween = (a: Vector | null, b: Vector | null): number | null =>
  a && b && (Math.acos(Math.max(-1, Math.min(1, dot(a, b) / Math.hypot(...a) / Math.hypot(...b)))) * 180) / Math.PI;
