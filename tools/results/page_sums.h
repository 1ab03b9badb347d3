// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Load cases as sums of a few among them, so that a page need not carry stress and displacement
/// of all: nine cases of a bolted part are made of three elementary loads.
struct CaseSums {
  std::vector<std::size_t> carried;  ///< positions in RunResult::cases, ascending
  Eigen::MatrixXd counts;            ///< carried x cases: what each carried one counts in each
};

/// A case counts as a sum where what is left over is less than 1e-6 of its own fields (their
/// Euclidean norms, stress and displacement each in parts of its largest). Where any value is not
/// finite all cases are carried.
CaseSums sums_of_cases(const std::vector<CaseResult>& cases);

}  // namespace crossgrain
