// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/wall_columns.h"

#include <cmath>
#include <random>

#include "mesh/point_tree.h"

namespace crossgrain {

using Eigen::Vector3d;

std::vector<InnerPoint> points_between_layers(const std::vector<SurfaceSample>& samples,
                                              const SizeRules& rules,
                                              const std::vector<SurfaceRays>& rays,
                                              const std::function<double(const Vector3d&)>& edge) {
  // Columns through the wall, by their middles. Both sides of a wall propose them: the first wins.
  PointTree middles;
  std::vector<InnerPoint> points;
  // Points exactly in a plane or on a cylinder make flat elements: move each a little, always alike.
  std::minstd_rand random(1);
  std::uniform_real_distribution<double> shift(-0.1, 0.1);
  for (const SurfaceSample& sample : samples) {
    if (!rules.points_inside || rules.layers < 2) break;
    if (!std::isfinite(sample.wall) || beside_rim(sample)) continue;
    const Vector3d middle = sample.point + 0.5 * sample.wall * sample.inward;
    const double layer = sample.wall / rules.layers, size = edge(middle);
    // Shorter edges fill the wall by themselves; longer ones are wanted nowhere beside a wall.
    if (size < edge_per_layer_unaided * layer || size > 1.5 * edge_per_layer * layer) continue;
    if (middles.any_within(middle, 0.75 * size)) continue;
    middles.insert(middle);
    for (int i = 1; i < rules.layers; ++i) {
      const double depth = layer * (i + shift(random));
      const Vector3d point = sample.point + depth * sample.inward;
      const SurfaceRays& surface = rays[index(sample.body)];
      if (surface.distance(point, layer) < 0.6 * layer) continue;
      points.push_back({point, sample.body});
    }
  }
  return points;
}

}  // namespace crossgrain
