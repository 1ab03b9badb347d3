// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_sizes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crossgrain {

bool beside_rim(const SurfaceSample& sample) {
  // The middle of the wall is then nearer to the rim than to the wall's two faces.
  return std::isfinite(sample.wall) && sample.clearance < 0.4 * sample.wall;
}

double SizeRules::along_wall() const {
  return (points_inside ? edge_per_layer : edge_per_layer_unaided) / layers;
}

double SizeRules::size_at(const SurfaceSample& sample) const {
  const double turn = 2.0 * std::numbers::pi * sample.bend_radius / elements_per_turn;
  const double size = std::min({greatest, turn, along_wall() * sample.wall});
  return std::max(size, least) / refinement;
}

SizeRules size_rules(const MeshOptions& options, const Remedy& remedy, double diagonal) {
  SizeRules rules{};
  rules.greatest = remedy.size_factor * options.size.value_or(diagonal / 15.0);
  rules.least = std::max(remedy.size_factor * options.size_min.value_or(diagonal / 500.0),
                         remedy.least_size * diagonal);
  rules.least = std::min(rules.least, rules.greatest);
  rules.elements_per_turn = options.elements_per_turn / remedy.size_factor;
  rules.layers = options.layers;
  rules.refinement = options.refinement;
  rules.points_inside = !remedy.free_of_layers;
  return rules;
}

std::vector<SizedPoint> sized_points(const std::vector<SurfaceSample>& samples,
                                     const SizeRules& rules) {
  std::vector<SizedPoint> points;
  points.reserve(samples.size());
  for (const SurfaceSample& sample : samples) {
    points.push_back({sample.point, rules.size_at(sample)});
    if (beside_rim(sample)) {
      const double size = edge_per_layer_unaided / rules.layers * sample.wall;
      if (size < points.back().size * rules.refinement)
        points.push_back({sample.middle_of_wall(), std::max(size, rules.least) / rules.refinement});
    }
  }
  return points;
}

}  // namespace crossgrain
