// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// Where the screw ends: a nut under the clamped parts, or a thread in the last of them.
enum class Clamping { through, tapped };

/// A stack of one material between head and thread, round the screw's hole.
struct ClampedParts {
  double length;         ///< clamped, lK [mm]
  double head_diameter;  ///< outer, of head or washer, dW [mm]
  double hole;           ///< dh [mm]
  double outer;          ///< of the material round the hole, DA [mm]
  double modulus;        ///< along the screw [MPa]
};

/// Give per newton of clamped parts: a cone that widens from under the head, and a sleeve from
/// where the material ends.
/// @return delta_P [mm/N]
/// @throws std::invalid_argument if the head is not wider than the hole or the material not wider
/// than the hole.
/// Source: VDI 2230-1, substitute deformation cone (concentric).
double clamped_compliance(Clamping clamping, const ClampedParts& parts);

/// Diameter beyond which more material round the screw does not help, D_A,Gr [mm].
double cone_limit_diameter(Clamping clamping, const ClampedParts& parts);

}  // namespace crossgrain
