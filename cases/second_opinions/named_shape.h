// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// A shape as a case file would name it, for the one-number calculation and for buckling.
HandCalculationSpec named_shape(const SimpleShape& shape);

}  // namespace crossgrain
