// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/run_result.h"
#include "cases/judgement/stress_sites.h"
#include "cases/judgement/yardstick.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// Fill the factor on all loads at every site, per mode and overall, and which mode governs. NaN
/// where the stress is not finite; infinity where there is no limit, or the mode does not apply.
/// @param stress  6 x sites [MPa], material axes, at multiplier 1.
void fill_factor_fields(CaseFields& fields, const StressSites& sites, const Yardstick& yardstick,
                        const StressField& stress, int threads = 0);

}  // namespace crossgrain
