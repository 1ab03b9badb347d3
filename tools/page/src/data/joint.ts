// What the page uses of the joint in summary.json.
import type { Vector } from "./vector";

export interface JointLine {
  mode: string;
  owner: string;
  holds: boolean;
  value: number | null;
  limit: number | null;
  unit: string;
  must_reach: boolean;
  used: number | null;
  state: string;
  preload: string | null;
  place_mm: Vector | null;
  limit_standing: string;
  limit_source: string;
  note: string;
  remedy: string;
}

export interface ScrewGroup {
  name: string;
  screws: number;
  preload_nominal_N: number | null;
  torque_nominal_Nmm: number | null;
}

export interface TorqueBound {
  over_nominal: number | null;
  mode: string;
  owner: string;
  state: string;
  extrapolated: boolean;
}

export interface TorqueWindow {
  empty: boolean;
  lowest: TorqueBound | null;
  highest: TorqueBound | null;
  never_satisfied: string | null;
}

export interface JointState {
  name: string;
  preload: string;
  fluid_pressure_MPa: number;
  /** By group, by screw. */
  screw_force_N: (number | null)[][];
  /** By seal, by station. */
  contact_MPa: (number | null)[][];
  contact_wanted_MPa: number[];
}

export interface JointHistory {
  screws: { name: string; angle_deg: number[] }[];
  seals: { name: string; angle_deg: number[] }[];
  states: JointState[];
}

export interface Joint {
  holds: boolean;
  groups: ScrewGroup[];
  lines: JointLine[];
  torque_window: TorqueWindow | null;
  would_open_the_window: { name: string; opens: boolean; words: string }[];
  history: JointHistory;
}

export const stateTitle = (state: JointState): string => `${state.name}, ${state.preload} preload`;

/** Share of the contact that is wanted which the leakiest station has; infinite where nothing asks. */
export function coverOf(state: JointState, seal: number): number {
  const wanted = state.contact_wanted_MPa[seal];
  if (!(wanted > 0)) return Infinity;
  return Math.min(...state.contact_MPa[seal].map((contact) => contact ?? 0)) / wanted;
}
