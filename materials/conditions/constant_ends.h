// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "materials/conditions/material.h"

namespace crossgrain {

/// Which number of its range a constant takes.
enum class RangeEnd { value, low, high };

/// A number of a material that has a range of its own: a constant, or what a service condition
/// leaves of strength or modulus.
struct RangedConstant {
  std::string name;     ///< "Zt"; "strength kept (sustained load)"
  std::string meaning;  ///< in words: "strength across the layers (Z)"; empty for what is kept
  std::string unit;     ///< "MPa", "-"
  Ranged range;
  bool is_strength;  ///< stress does not depend on it
};

/// Constants in the order of a card, then what conditions leave. Without those that are known
/// exactly.
std::vector<RangedConstant> ranged_constants(const MaterialAtConditions& material);

struct SolidAtEnds {
  SolidMaterial solid;
  /// The part of the way from the nominal numbers to the ends that was gone: less than 1 where a
  /// solid at the ends would store negative energy.
  double way;
};

/// The solid with every ranged constant at a stated place of its range.
/// @param ends  in the order of `ranged_constants`.
SolidAtEnds solid_at_ends(const MaterialAtConditions& material, const std::vector<RangeEnd>& ends);

}  // namespace crossgrain
