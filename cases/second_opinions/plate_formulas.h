// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/second_opinions/textbook_value.h"

namespace crossgrain {

/// In the middle and, if walls hold it, near the edge; beside them what the other extreme of the
/// edge and the code's rule for flat covers make.
/// @param p  gauge, on the pressed side [MPa].  @param nu  Poisson's ratio.
std::vector<TextbookValue> plate_values(const SimpleShape& plate, double p, double nu);

}  // namespace crossgrain
