// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// What the thread engages.
enum class ThreadSeat { nut, tapped_hole };

/// An elastic shank between head and thread.
struct ScrewShank {
  double clamped_length;  ///< from the head's seat to the first engaged thread, lK [mm]
  double plain_shank;     ///< of it, without thread, of the nominal diameter [mm]
  double modulus;         ///< of the screw [MPa]
};

/// Stretch per newton of head, shank, free thread and the engaged thread's core.
/// @return delta_S without nut or tapped hole [mm/N]
/// Source: VDI 2230-1, substitutes 0.4 d (socket head) and 0.5 d (engaged core), from memory.
double screw_compliance(const ScrewShank& screw, const ScrewSize& size);

/// Give per newton of the thread's seat: 0.4 d of a nut or 0.33 d of a tapped hole, on the nominal
/// cross-section. In plastic this zone is softer than the screw; it lies on the screw's side. For
/// an insert: its outer diameter in place of the screw's, the seat being the plastic round it.
/// @param modulus  of what holds the thread [MPa]  @return delta_M [mm/N]
/// Source: VDI 2230-1, from memory.
double thread_seat_compliance(ThreadSeat seat, double diameter, double modulus);

/// How far a shank of a clamped screw resists a sideways slip of head against thread, by bending
/// and shear of a round bar of the core's diameter.
struct LateralStiffness {
  double free_head;  ///< the head may tilt: 3 E I / l^3 with shear [N/mm]
  double held_head;  ///< friction keeps the head square: 12 E I / l^3 with shear [N/mm]
};
/// Source: handbook form of the Timoshenko beam; shear factor 0.9 of a round bar, nu 0.3.
LateralStiffness lateral_stiffness(const ScrewShank& screw, const ScrewSize& size);

}  // namespace crossgrain
