// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/sized_part.h"

#include <algorithm>
#include <cmath>

#include "mesh/tetrahedra/mesh_extent.h"
#include "mesh/tetrahedra/pits.h"
#include "mesh/tetrahedra/surface_samples.h"

namespace crossgrain {

using Eigen::Vector3d;

SizedPart::SizedPart(const ReadStep& step, const MeshOptions& options, const Remedy& remedy)
    : geometry_(step.geometry),
      options_(options),
      remedy_(remedy),
      rules_(size_rules(options, remedy, step.geometry.box.diagonal())) {
  for (const Body& body : geometry_.bodies) rays_.emplace_back(geometry_, body.id);
  samples_ = sample_surface(step, rays_, rules_);
}

SizeField SizedPart::sizes() const {
  std::vector<SizedPoint> points = sized_points(samples_, rules_);
  const std::vector<SizedPoint> pits = sized_pits(geometry_, rays_, rules_);
  points.insert(points.end(), pits.begin(), pits.end());
  points.insert(points.end(), shortened_.begin(), shortened_.end());
  return {std::move(points), asked_sizes(), rules_.greatest / rules_.refinement};
}

AskedSizes SizedPart::asked_sizes() const {
  const double factor = remedy_.size_factor * coarsening_,
               floor = remedy_.least_size * geometry_.box.diagonal(),
               floor_of_points = std::max(floor, factor * options_.size_min.value_or(0.0));
  std::vector<SizeBall> balls = options_.balls;
  for (SizeBall& ball : balls) ball.size = std::max(factor * ball.size, floor);
  std::vector<SizedPoint> wanted = options_.wanted_sizes;
  for (SizedPoint& point : wanted) point.size = std::max(factor * point.size, floor_of_points);
  return {std::move(wanted), std::move(balls)};
}

std::vector<InnerPoint> SizedPart::inner_points(const SizeField& sizes) const {
  return points_between_layers(samples_, rules_, rays_,
                               [&sizes](const Vector3d& place) { return sizes.inside(place); });
}

double SizedPart::expected_unknowns(const SizeField& sizes) const {
  return crossgrain::expected_unknowns(extent_in_sizes(geometry_, rays_, sizes));
}

void SizedPart::shorten(const std::vector<WallCrossing>& crossings, const SizeField& sizes) {
  for (const WallCrossing& crossing : crossings) {
    if (crossing.layers >= rules_.layers) continue;
    const Vector3d middle = crossing.position + 0.5 * crossing.wall * crossing.inward;
    shortened_.push_back(
        {middle, std::max(0.7 * sizes.inside(middle), rules_.least / rules_.refinement)});
  }
}

void SizedPart::coarsen(double excess) {
  // Unknowns fall between the second power of the sizes (sheets) and the third (bulk).
  const double factor = std::pow(excess, 1.0 / 2.5);
  coarsening_ *= factor;
  rules_.refinement /= factor;
  shortened_.clear();
}

}  // namespace crossgrain
