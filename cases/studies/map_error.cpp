// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/map_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crossgrain {
namespace {

// Half the way from one solved direction to the next, of some twenty. Measured on the filter bowl:
// true errors scatter least about the changes with it.
constexpr double neighbourhood = 15.0 * std::numbers::pi / 180.0;
// What was true of fewer solutions is not of more.
constexpr std::size_t last = 8;
// Of a root mean square, of normal errors exceeded by one in twenty.
constexpr double allowance = 2.0;

}  // namespace

void MapError::set_changes(const std::vector<Eigen::Index>& looked_at,
                           const std::vector<double>& changes) {
  change_.assign(directions_.cols(), 0.0);
  mean_change_ = 0.0;
  const double nearest = std::cos(neighbourhood);
  for (std::size_t k = 0; k < looked_at.size(); ++k) {
    const Eigen::Index d = looked_at[k];
    double sum = changes[k] * changes[k];
    int count = 1;
    for (std::size_t i = 0; i < looked_at.size(); ++i) {
      if (i == k || std::abs(directions_.col(d).dot(directions_.col(looked_at[i]))) < nearest)
        continue;
      sum += changes[i] * changes[i];
      ++count;
    }
    change_[d] = std::sqrt(sum / count);
    mean_change_ += change_[d] / static_cast<double>(looked_at.size());
  }
}

double MapError::error(Eigen::Index direction) const {
  const std::size_t count = std::min(off_.size(), last);
  double sum = 0.0;
  for (std::size_t i = off_.size() - count; i < off_.size(); ++i) sum += off_[i] * off_[i];
  if (!(sum > 0.0)) return 0.0;
  const double usual = allowance * std::sqrt(sum / static_cast<double>(count));
  // Its root: a change twice as large was found to go with an error far less than twice as large.
  return mean_change_ > 0.0 ? usual * std::sqrt(change_[direction] / mean_change_) : usual;
}

}  // namespace crossgrain
