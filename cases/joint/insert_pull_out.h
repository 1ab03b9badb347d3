// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/joint/limit_standing.h"
#include "materials/conditions/knock_downs.h"

namespace crossgrain {

/// A threaded insert set into plastic.
struct Insert {
  double diameter;  ///< outer, over the knurl [mm]
  double length;    ///< held by the plastic [mm]
};

/// The pull that an insert stands, with its range.
struct HoldingForce {
  double value;  ///< [N]
  double low;    ///< [N]
  double high;   ///< [N]
  LimitStanding standing;
  std::string rule;
};

/// The user's short-term figure at room temperature, less what time under load and heat take off
/// the strength of the plastic.
/// @param short_term  [N]
/// @param strength    kept at the joint's conditions: `kept(knock_downs(...), "strength")`
HoldingForce given_pull_out(double short_term, const Kept& strength);

/// Shear strength of the plastic round an insert at the joint's conditions, the lower of between
/// layers and in the layer.
struct ShearStrength {
  double value, low, high;  ///< [MPa]
};

/// Where no figure is known: the cylinder round the insert sheared off, pi d L S, of which a knurl
/// that was set with heat engages 0.4 (0.25 to 0.7). An estimate, from memory, in the range of one
/// published test; pull one out of a print of the same profile before anything depends on it.
HoldingForce estimated_pull_out(const Insert& insert, const ShearStrength& strength);

}  // namespace crossgrain
