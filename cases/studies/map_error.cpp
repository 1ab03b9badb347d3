// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/map_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crossgrain {
namespace {

// Half the way from one solved direction to the next, of some twenty. Measured on the filter bowl:
// the ratios of true errors to changes scatter least with it, the greatest of fifty being four to
// nine times that in the middle.
constexpr double neighbourhood = 15.0 * std::numbers::pi / 180.0;
// The greatest of the few ratios known: one in five of the next exceeds the greatest of four.
constexpr double allowance = 1.5;
// Below, a change is the solver's.
constexpr double least_change = 1e-4;

}  // namespace

void MapError::set_changes(const std::vector<Eigen::Index>& looked_at,
                           const std::vector<double>& changes) {
  change_.assign(directions_.cols(), 0.0);
  const double nearest = std::cos(neighbourhood);
  for (const Eigen::Index d : looked_at) {
    double sum = 0.0;
    int count = 0;
    for (std::size_t i = 0; i < looked_at.size(); ++i) {
      if (std::abs(directions_.col(d).dot(directions_.col(looked_at[i]))) < nearest) continue;
      sum += changes[i] * changes[i];
      ++count;
    }
    change_[d] = std::max(least_change, std::sqrt(sum / count));
  }
}

void MapError::hold_against(Eigen::Index direction, double off) {
  error_of_change_ = std::max(error_of_change_, allowance * off / change_[direction]);
}

}  // namespace crossgrain
