// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "cases/judgement/judgement.h"

namespace crossgrain {

/// The largest multiple q of the scaling loads, in [0, infinity), at which every margin asked for
/// holds: target * (held + q * scaling) within every limit (the factor on all loads), held +
/// target * q * scaling within every limit (the pressure factor), target * q <= the multiplier at
/// which the model ends (a relieved gasket).
struct AllowableMultiple {
  std::optional<double> value;  ///< none: no limit found; 0: the held state alone misses a margin
  std::string limited_by;
};

/// @param held, scaling  6 x sites [MPa], material axes.
/// @param pressure_factor  of the case, from judge() and capped.
AllowableMultiple allowable_multiple(const StressSites& sites, const Yardstick& yardstick,
                                     const StressField& held, const StressField& scaling,
                                     const Judgement& pressure_factor, double target,
                                     int threads = 0);

}  // namespace crossgrain
