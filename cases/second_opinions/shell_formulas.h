// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/second_opinions/textbook_value.h"

namespace crossgrain {

/// Whether a hand calculation would take p r / t.
bool taken_as_thin(const SimpleShape& shell);

/// Round a cylinder or sphere; along a cylinder's axis, if it has a closed end.
/// @param p  gauge, on the pressed side [MPa].
std::vector<TextbookValue> shell_values(const SimpleShape& shell, double p);

}  // namespace crossgrain
