// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/wall_layers.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>

#include "mesh/geometry/wall_angle.h"
#include "mesh/tetrahedra/tetrahedron_sides.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

/// A straight way through a body.
struct Way {
  std::vector<double> lengths;  ///< in each element [mm]
  double wall = 0.0;
  double cosine = 0.0;  ///< between the way and the normal where it leaves
};

/// Elements crossed over more than a tenth of the way. Where more than ten share it that would
/// leave none: there are at least as many layers as the longest stretch fits into the way.
int layers_along(const Way& way) {
  double longest = 0.0;
  int count = 0;
  for (const double length : way.lengths) {
    longest = std::max(longest, length);
    if (length > 0.1 * way.wall) ++count;
  }
  return std::max(count, longest > 0.0 ? static_cast<int>(way.wall / longest) : 0);
}

/// Walks straight through the elements of one body.
class Walker {
 public:
  explicit Walker(const TetrahedronMesh& mesh) : mesh_(mesh), neighbours_(side_neighbours(mesh)) {}

  std::optional<Way> through(int element, const Vector3d& start, const Vector3d& direction) {
    constexpr int most_steps = 2000;
    Way way;
    int from = -1;
    for (int step = 0; step < most_steps; ++step) {
      const auto [side, distance, cosine] = leave(element, from, start, direction);
      if (side < 0) return std::nullopt;
      way.lengths.push_back(std::max(0.0, distance - way.wall));
      way.wall = std::max(way.wall, distance);
      const int next = neighbours_[static_cast<std::size_t>(element)][side];
      if (next < 0 || body(next) != body(element)) {
        way.cosine = cosine;
        return way;
      }
      from = element;
      element = next;
    }
    return std::nullopt;
  }

 private:
  struct Leaving {
    int side;
    double distance;  ///< from the start [mm]
    double cosine;
  };

  BodyId body(int element) const {
    return mesh_.body_of_tetrahedron[static_cast<std::size_t>(element)];
  }

  /// The side by which the ray leaves an element: the nearest of those it runs out through.
  Leaving leave(int element, int from, const Vector3d& start, const Vector3d& direction) const {
    Leaving leaving{-1, std::numeric_limits<double>::infinity(), 0.0};
    for (int s = 0; s < 4; ++s) {
      if (from >= 0 && neighbours_[static_cast<std::size_t>(element)][s] == from) continue;
      const auto& side = tetrahedron_sides[static_cast<std::size_t>(s)];
      const Vector3d a = mesh_.nodes.col(mesh_.tetrahedra(side[0], element)),
                     b = mesh_.nodes.col(mesh_.tetrahedra(side[1], element)),
                     c = mesh_.nodes.col(mesh_.tetrahedra(side[2], element));
      const Vector3d outward = (b - a).cross(c - a);
      const double speed = direction.dot(outward);
      if (!(speed > 1e-12 * outward.norm())) continue;
      const double distance = (a - start).dot(outward) / speed;
      if (distance < leaving.distance) leaving = {s, distance, speed / outward.norm()};
    }
    return leaving;
  }

  const TetrahedronMesh& mesh_;
  std::vector<std::array<int, 4>> neighbours_;
};

/// Three points inside a triangle, each for a third of it.
constexpr std::array<std::array<double, 3>, 3> places = {
    {{0.70, 0.16, 0.14}, {0.14, 0.70, 0.16}, {0.16, 0.14, 0.70}}};

}  // namespace

std::vector<WallCrossing> cross_walls(const TetrahedronMesh& mesh) {
  Walker walker(mesh);
  std::vector<WallCrossing> crossings;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    const auto at = static_cast<std::size_t>(t);
    Eigen::Matrix3d corners;
    for (int i = 0; i < 3; ++i) corners.col(i) = mesh.nodes.col(mesh.triangles(i, t));
    const Vector3d normal =
        (corners.col(1) - corners.col(0)).cross(corners.col(2) - corners.col(0));
    const Vector3d inward = -normal.normalized();
    const int element = mesh.tetrahedron_of_triangle[at];
    for (const auto& place : places) {
      const Vector3d start = corners * Eigen::Map<const Vector3d>(place.data());
      const auto way = walker.through(element, start, inward);
      if (!way || way->cosine < least_wall_cosine) continue;
      crossings.push_back({mesh.face_of_triangle[at],
                           mesh.body_of_tetrahedron[static_cast<std::size_t>(element)], start,
                           inward, normal.norm() / 6.0, way->wall, layers_along(*way)});
    }
  }
  return crossings;
}

namespace {

/// The least value but for the hundredth of the area where it is smallest.
template <class Value>
double first_percentile(const std::vector<WallCrossing>& crossings, Value value) {
  std::vector<std::pair<double, double>> sorted;  // value, area
  double area = 0.0;
  for (const WallCrossing& crossing : crossings) {
    sorted.push_back({value(crossing), crossing.area});
    area += crossing.area;
  }
  std::sort(sorted.begin(), sorted.end());
  double passed = 0.0;
  for (const auto& [v, a] : sorted) {
    passed += a;
    if (passed > 0.01 * area) return v;
  }
  return 0.0;
}

}  // namespace

void report_layers(const std::vector<WallCrossing>& crossings, int layers, MeshReport& report) {
  constexpr std::size_t most_places = 20;
  report.layers_min = static_cast<int>(
      first_percentile(crossings, [](const WallCrossing& c) { return double(c.layers); }));
  report.wall_min_mm = first_percentile(crossings, [](const WallCrossing& c) { return c.wall; });

  std::vector<WallCrossing> thin;
  for (const WallCrossing& crossing : crossings)
    if (crossing.layers < layers) thin.push_back(crossing);
  std::stable_sort(thin.begin(), thin.end(), [](const WallCrossing& a, const WallCrossing& b) {
    return std::tuple(a.layers, a.wall) < std::tuple(b.layers, b.wall);
  });
  report.thin_places.clear();
  for (const WallCrossing& crossing : thin) {
    const bool near = std::any_of(
        report.thin_places.begin(), report.thin_places.end(), [&](const ThinPlace& place) {
          return (place.position - crossing.position).norm() < 5.0 * crossing.wall;
        });
    if (near) continue;
    report.thin_places.push_back(
        {crossing.face, crossing.position, crossing.wall, crossing.layers});
    if (report.thin_places.size() == most_places) break;
  }
}

}  // namespace crossgrain
