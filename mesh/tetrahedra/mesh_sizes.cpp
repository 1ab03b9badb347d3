// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_sizes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crossgrain {

double SizeRules::along_wall() const {
  return (points_inside ? edge_per_layer : edge_per_layer_unaided) / layers;
}

double SizeRules::size_at(const SurfaceSample& sample) const {
  const double turn = 2.0 * std::numbers::pi * sample.bend_radius / elements_per_turn;
  const double size = std::min({greatest, turn, along_wall() * sample.wall});
  return std::max(size, least) / refinement;
}

double SizeRules::size_unaided(double wall) const {
  return std::max(std::min(greatest, edge_per_layer_unaided / layers * wall), least) / refinement;
}

double SizeRules::thickest_that_counts() const {
  return greatest * layers / edge_per_layer_unaided;
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
    if (sample.beside_rim) {
      const double size = rules.size_unaided(sample.wall);
      if (size < points.back().size) points.push_back({sample.middle_of_wall(), size});
    }
  }
  return points;
}

}  // namespace crossgrain
