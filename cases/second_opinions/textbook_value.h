// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// A formula at one place of a shape.
struct TextbookValue {
  std::string place;    ///< "cylindrical shell", "round flat bottom, middle"
  std::string formula;  ///< with its source
  std::vector<HandInput> inputs;
  const WallLine* line;  ///< of the shape
  double stress;         ///< with the pressure's sign [MPa]
  std::vector<HandBeside> beside = {};
  std::optional<double> lame = {};  ///< the thick shell's value there [MPa]; shells only
  bool end_thrust = false;          ///< along the axis of a cylinder with a closed end
};

}  // namespace crossgrain
