// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/judgement/stress_sites.h"
#include "cases/judgement/yardstick.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// Stress fields [MPa] turned into the material axes of each point's tetrahedron.
StressField in_material_axes(const StressField& stress, const std::vector<StressPoint>& points,
                             const MaterialField& field, int threads = 0);

/// For every mode the least multiplier of the scaling stress on top of the held one, where it is,
/// and the least over the governing modes. Points near artificial supports, and those that
/// screws' heads crush, are searched apart.
/// Points whose stress is not finite are passed over here: check_finite names them.
/// @param held, scaling  6 x sites [MPa], material axes; held may be empty: nothing is held.
/// @return factors with low = high = value; `position` and the rest of a mode without a crossing
///         are those of its most stressed point.
Judgement judge(const StressSites& sites, const Yardstick& yardstick, const StressField& held,
                const StressField& scaling, int threads = 0);

/// Reasons not to trust a field: where it is not finite. Empty if all is well.
std::vector<std::string> check_finite(const StressSites& sites, const StressField& stress);

}  // namespace crossgrain
