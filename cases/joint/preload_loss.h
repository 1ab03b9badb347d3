// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/joint/load_factor.h"

namespace crossgrain {

/// Loss of preload by faces that bed in: embedding over the joint's give.
/// @param embedding  of all faces together [mm]  @return [N]
/// Source: VDI 2230-1, F_Z = f_Z / (delta_S + delta_P).
double embedding_loss(double embedding, const JointCompliance& joint);

/// Embedding of metal faces: 3 um in the thread, 3 under the head, 2 for each pair of clamped faces
/// (of the size of VDI 2230-1's table, from memory). As-printed faces are rougher and creep
/// besides.
/// @return [mm]
double usual_embedding(int clamped_pairs);

/// Share of a preload that creep leaves: the screw's stretch and the parts' shortening together
/// stay, while the springs soften (a quasi-elastic estimate).
/// @param fresh  springs when tightened  @param aged  the same with the moduli after the time under
/// load
double kept_after_creep(const JointCompliance& fresh, const JointCompliance& aged);

/// Share of the preload that plastics without metal limiters lose by creep within weeks (from
/// memory).
struct CreepLoss {
  double low = 0.3;
  double high = 0.6;
};

/// One of the clamped layers, gasket included.
struct ClampedLayer {
  double thickness;  ///< [mm]
  double expansion;  ///< along the screw [1/K]
};

/// Change of a locked screw's force when everything warms alike: the layers outgrow the screw.
/// @param warming          temperature less that at tightening [K]
/// @param screw_expansion  [1/K]
/// @return [N], positive where the force grows
double thermal_change(double warming, const std::vector<ClampedLayer>& layers,
                      double screw_expansion, const JointCompliance& joint);

}  // namespace crossgrain
