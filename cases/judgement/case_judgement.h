// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judgement.h"

namespace crossgrain {

/// How a case is judged.
struct JudgeOptions {
  double target = 3.0;      ///< the factor asked for; sets the allowable pressure
  bool keep_fields = true;  ///< fill CaseResult::fields
  int threads = 0;
};

/// The factor on the scaling loads with the held ones held, no greater than the load case's
/// largest.
/// @param held, scaling  6 x sites [MPa], material axes; empty: nothing is held, nothing scales.
Judgement judge_scaling(const LoadCase& load_case, const StressSites& sites,
                        const Yardstick& yardstick, const StressField& held,
                        const StressField& scaling, int threads);

/// Judge one load case: the factor on all loads, the factor on the scaling loads with the held ones
/// held, the allowable pressure, and the fields. Strain energy is left to the caller.
CaseResult judge_case(const LoadCase& load_case, const CombinedCase& combined,
                      const StressSites& sites, const MaterialField& field,
                      const Yardstick& yardstick, const JudgeOptions& options);

/// Take another material set's answer into the ranges: low = least, high = greatest so far. Values,
/// positions and fields stay those of `result`.
void widen_range(CaseResult& result, const CaseResult& other);

}  // namespace crossgrain
