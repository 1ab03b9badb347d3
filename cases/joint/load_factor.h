// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// Springs of one screw's joint, each the give per newton.
struct JointCompliance {
  double screw;    ///< screw with its thread's seat, delta_S [mm/N]
  double clamped;  ///< clamped parts, delta_P [mm/N]
  double gasket;   ///< of the gasket's share of one screw, in series with them; 0 without [mm/N]

  double sum() const { return screw + clamped + gasket; }
};

/// Share of a working load that the screw takes on top of its preload, before the joint opens.
/// @param introduction  n: 1 where the load enters under the head, less the deeper it enters;
///                      the gasket lies outside the part that it shortens [-]
/// @return Phi [-]
/// Source: VDI 2230-1, Phi = n (delta_P + delta_gasket) / (delta_S + delta_P + delta_gasket).
double load_factor(const JointCompliance& joint, double introduction);

/// Force of a screw under a working load: it grows by Phi of it until the parts part, and is the
/// load itself from there on.
/// @param preload  [N]  @param working_load  pulling the parts asunder [N]  @return [N]
double screw_force(double preload, double working_load, double load_factor);

/// Working load at which the parts part: preload / (1 - Phi) [N].
double opening_load(double preload, double load_factor);

}  // namespace crossgrain
