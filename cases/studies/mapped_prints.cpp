// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/mapped_prints.h"

#include <algorithm>
#include <cmath>

namespace crossgrain {
namespace {

bool same_axis(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  constexpr double same = 1.0 - 1e-12;
  return std::abs(a.normalized().dot(b.normalized())) > same;
}

/// Read the map where it has a direction.
void read_map(const DirectionMap& map, const Eigen::Vector3d& direction, OwnFactor& own) {
  if (same_axis(map.refined, direction)) {
    own.on_map = true;
    own.mapped = map.refined_factor;
    own.said = map.errors[map.best];
    return;
  }
  for (Eigen::Index d = 0; d < map.directions.cols(); ++d) {
    if (!same_axis(map.directions.col(d), direction)) continue;
    own.on_map = true;
    own.mapped = map.factors[d].worst();
    own.said = map.errors[d];
    return;
  }
}

}  // namespace

void hold_against(MappedPrint& mapped, const std::string& row, const Eigen::Vector3d& direction,
                  bool others_held, const MappedFactors& solved) {
  DirectionMap& map = mapped.map;
  OwnFactor own{row, solved.worst()};
  own.others_held = others_held;
  read_map(map, direction, own);
  mapped.solved.push_back(own);
  if (!own.on_map || !others_held) return;
  const double off = relative_difference(own.mapped, own.factor);
  map.error = std::max(map.error, off);
  map.within_tolerance = map.within_tolerance && map.error <= map.tolerance;
  if (!(off > own.said)) return;
  // What was said was too little here, and so may be elsewhere.
  for (double& error : map.errors)
    error = own.said > 0.0 ? std::min(1.0, error * off / own.said) : off;
}

}  // namespace crossgrain
