// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/load_combination.h"
#include "cases/run_result.h"
#include "cases/stress_sites.h"

namespace crossgrain {

/// What stresses are measured against.
struct Yardstick {
  std::vector<Strength> strength_of_body;  ///< by body index
  Criterion criterion = Criterion::interactive;
};

/// Stress fields [MPa] turned into the material axes of each point's tetrahedron.
StressField in_material_axes(const StressField& stress, const std::vector<StressPoint>& points,
                             const MaterialField& field);

/// For every mode the least multiplier of the scaling stress on top of the held one, where it is,
/// and the least over the governing modes. Points near artificial supports are searched apart.
/// Points whose stress is not finite are passed over here: check_finite names them.
/// @param held, scaling  6 x sites [MPa], material axes; held may be empty: nothing is held.
/// @return factors with low = high = value; `position` and the rest of a mode without a crossing
///         are those of its most stressed point.
Judgement judge(const StressSites& sites, const Yardstick& yardstick, const StressField& held,
                const StressField& scaling, int threads = 0);

/// Reasons not to trust a field: where it is not finite. Empty if all is well.
std::vector<std::string> check_finite(const StressSites& sites, const StressField& stress);

/// Judge one load case: the factor on all loads, the factor on the scaling loads with the held ones
/// held, the allowable pressure, and the fields.
/// @param target  the factor asked for, for the allowable pressure.
CaseResult judge_case(const LoadCase& load_case, const CombinedCase& combined,
                      const StressSites& sites, const MaterialField& field,
                      const Yardstick& yardstick, double target, int threads = 0);

/// Take another material set's answer into the range: low = least, high = greatest so far. Values,
/// positions and fields stay those of `result`.
void widen_range(CaseResult& result, const CaseResult& other);
void widen_range(FactorRange& range, const FactorRange& other);

}  // namespace crossgrain
