// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/failure/failure.h"

namespace crossgrain {

/// What stresses are measured against.
struct Yardstick {
  std::vector<Strength> strength_of_body;  ///< by body index
  Criterion criterion = Criterion::interactive;
};

/// Every mode that governs some body, in the order of FailureMode; with the second opinion also
/// tsai_wu if a body is layered.
std::vector<FailureMode> modes_of(const Yardstick& yardstick, bool second_opinion);

/// Whether this mode can judge that kind of strength under the criterion asked for.
bool judges(FailureMode mode, const Strength& strength, Criterion criterion);

}  // namespace crossgrain
