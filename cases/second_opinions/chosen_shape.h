// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// Of several shapes the one whose one-number calculation gives the greatest stress, as a case file
/// would name it. Without shapes none.
/// @param asked  its place and pressure are kept.  @param pressure [MPa]  @param nu  Poisson's
/// ratio.
HandCalculationSpec shape_of_greatest_stress(const std::vector<SimpleShape>& shapes,
                                             const HandCalculationSpec& asked, double pressure,
                                             double nu);

/// Of the cylinders and spheres the one with the thinnest wall for its radius, for buckling; none
/// without one.
HandCalculationSpec most_slender_shell(const std::vector<SimpleShape>& shapes);

}  // namespace crossgrain
