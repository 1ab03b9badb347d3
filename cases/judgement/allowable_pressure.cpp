// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/allowable_pressure.h"

#include "cases/judgement/factor_range.h"
#include "cases/judgement/least_multiplier.h"

namespace crossgrain {

AllowableMultiple allowable_multiple(const StressSites& sites, const Yardstick& yardstick,
                                     const StressField& held, const StressField& scaling,
                                     const Judgement& pressure_factor, double target, int threads) {
  AllowableMultiple allowable;
  if (pressure_factor.factor.value) {
    allowable.value = *pressure_factor.factor.value / target;
    allowable.limited_by = pressure_factor.governing
                               ? std::string(words_for(pressure_factor.governing->mode))
                               : pressure_factor.limited_by;
  }
  if (held.cols() == 0) return allowable;  // both factors are then the same
  // The factor on all loads asks that target * (held + q * scaling) stays within the limits.
  for (const auto& least : least_multipliers(sites, SiteGroup::judged, yardstick, target * held,
                                             target * scaling, false, threads)) {
    if (!is_less(least.value, allowable.value)) continue;
    allowable.value = least.value;
    allowable.limited_by = words_for(least.mode);
    if (*least.value == 0.0) allowable.limited_by += " under the held loads alone";
  }
  return allowable;
}

}  // namespace crossgrain
