// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/judgement/run_result.h"
#include "cases/second_opinions/through_wall.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// A formula at one place of a shape.
struct TextbookValue {
  std::string place;    ///< "cylindrical shell", "round flat bottom, middle"
  std::string formula;  ///< with its source
  std::vector<HandInput> inputs;
  const WallLine* line;  ///< of the shape
  double stress;         ///< with the pressure's sign [MPa]
};

/// What a textbook says of a shape, place by place.
/// @param p  gauge, on the pressed side [MPa].  @param nu  Poisson's ratio.
std::vector<TextbookValue> textbook_values(const SimpleShape& shape, double p, double nu);

/// The stress of the thick shell (Lame) as a mean and a linear part through the wall; nothing for
/// plates.
std::optional<LinearisedStress> thick_shell_stress(const SimpleShape& shape, double p);

/// The same shape as a case file would name it, for the one-number calculation and for buckling.
HandCalculationSpec named_shape(const SimpleShape& shape);

}  // namespace crossgrain
