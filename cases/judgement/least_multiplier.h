// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/judgement/stress_sites.h"
#include "cases/judgement/yardstick.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// The least multiplier of one mode over a set of sites.
struct LeastMultiplier {
  FailureMode mode;
  std::optional<double> value;  ///< none: no site has a crossing
  Eigen::Index site;            ///< where; without a crossing the most stressed site
};

/// For each mode that fits some body's strength the least multiplier >= 0 at which held +
/// multiplier * scaling reaches the limit. Sites whose stress is not finite are passed over.
/// @param held, scaling  6 x sites [MPa], material axes; held may be empty: nothing is held.
/// @param second_opinion  also look for tsai_wu.
std::vector<LeastMultiplier> least_multipliers(const StressSites& sites, SiteGroup group,
                                               const Yardstick& yardstick, const StressField& held,
                                               const StressField& scaling, bool second_opinion,
                                               int threads);

}  // namespace crossgrain
