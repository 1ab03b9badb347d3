// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/wall_columns.h"

#include <cmath>
#include <random>

#include "mesh/geometry/point_tree.h"

namespace crossgrain {

using Eigen::Vector3d;

namespace {

/// A sample through whose wall a column of points may go.
struct Column {
  const SurfaceSample* sample;
  double edge;  ///< edge length in the middle of the wall [mm]
};

std::vector<Column> possible_columns(const std::vector<SurfaceSample>& samples,
                                     const SizeRules& rules,
                                     const std::function<double(const Vector3d&)>& edge) {
  std::vector<Column> columns;
  if (!rules.points_inside || rules.layers < 2) return columns;
  for (const SurfaceSample& sample : samples) {
    if (!std::isfinite(sample.wall) || sample.beside_rim) continue;
    const double layer = sample.wall / rules.layers, size = edge(sample.middle_of_wall());
    // Shorter edges fill the wall by themselves; longer ones are wanted nowhere beside a wall.
    if (size >= edge_per_layer_unaided * layer && size <= 1.5 * edge_per_layer * layer)
      columns.push_back({&sample, size});
  }
  return columns;
}

/// Both sides of a wall propose columns: choose so that their middles keep apart.
std::vector<Column> spread(const std::vector<Column>& columns) {
  std::vector<Vector3d> middles;
  for (const Column& column : columns) middles.push_back(column.sample->middle_of_wall());
  std::vector<Column> chosen;
  const auto apart = [&](int i) { return 0.75 * columns[static_cast<std::size_t>(i)].edge; };
  for (const int i : PointTree(std::move(middles)).spread(apart))
    chosen.push_back(columns[static_cast<std::size_t>(i)]);
  return chosen;
}

}  // namespace

std::vector<InnerPoint> points_between_layers(const std::vector<SurfaceSample>& samples,
                                              const SizeRules& rules,
                                              const std::vector<SurfaceRays>& rays,
                                              const std::function<double(const Vector3d&)>& edge) {
  // Points exactly in a plane or on a cylinder make flat elements: move each a little, always
  // alike.
  std::minstd_rand random(1);
  std::uniform_real_distribution<double> shift(-0.1, 0.1);
  std::vector<InnerPoint> points;
  for (const Column& column : spread(possible_columns(samples, rules, edge))) {
    const SurfaceSample& sample = *column.sample;
    const double layer = sample.wall / rules.layers;
    for (int i = 1; i < rules.layers; ++i) {
      const Vector3d point = sample.point + layer * (i + shift(random)) * sample.inward;
      const double clear = 0.6 * layer;
      if (!(rays[index(sample.body)].distance(point, clear) < clear))
        points.push_back({point, sample.body});
    }
  }
  return points;
}

}  // namespace crossgrain
