// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "cases/second_opinions/through_wall.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// What is known of one place where a textbook and the field are held against each other.
struct ComparedPlace {
  const SimpleShape& shape;
  const WallLine& line;
  double hand;                 ///< [MPa]
  double pressure;             ///< [MPa]
  double nu;                   ///< that the formula took
  std::optional<double> lame;  ///< the thick shell's value at this place [MPa]; shells only
  bool end_thrust;             ///< the value is what the thrust on a cylinder's closed end makes
  LinearisedStress field;      ///< of the printed part
  std::optional<LinearisedStress> isotropic;  ///< of the same part with one stiffness
  /// A plate's other place: stress there and by its formula, if it has two.
  std::optional<LinearisedStress> field_elsewhere;
  bool other_loads;  ///< forces, preload or others act in this load case, too
};

struct Difference {
  std::string names;   ///< "thick wall, opening nearby"; "not explained"; "" within 15 %
  std::string reason;  ///< sentences with numbers; "" likewise
};

/// Which assumption of the formula breaks where it is off by more than 15 %. A cause with a formula
/// of its own is worked out and named if it brings the two closer; a cause without one is named if
/// the shape has it.
Difference difference_at(const ComparedPlace& place);

}  // namespace crossgrain
