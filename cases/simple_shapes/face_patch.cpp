// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/face_patch.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include "mesh/geometry/flat_triangle.h"

namespace crossgrain {
namespace {

/// Numbers points by where they lie: each face's triangles have points of their own.
class PlaceNumbers {
 public:
  explicit PlaceNumbers(double same) : same_(same) {}
  int of(const Eigen::Vector3d& point) {
    const Eigen::Vector3d scaled = point / same_;
    const std::array<long long, 3> key = {std::llround(scaled.x()), std::llround(scaled.y()),
                                          std::llround(scaled.z())};
    const auto [found, added] = numbers_.try_emplace(key, static_cast<int>(points_.size()));
    if (added) points_.push_back(point);
    return found->second;
  }
  const Eigen::Vector3d& at(int number) const { return points_[static_cast<std::size_t>(number)]; }
  std::size_t count() const { return points_.size(); }

 private:
  double same_;
  std::map<std::array<long long, 3>, int> numbers_;
  std::vector<Eigen::Vector3d> points_;
};

double length_of(const FacePatch::Rim& rim) {
  return std::accumulate(rim.begin(), rim.end(), 0.0, [](double sum, const FacePatch::Segment& s) {
    return sum + (s.b - s.a).norm();
  });
}

/// Edges that belong to one triangle only, sorted by what hangs together.
std::vector<FacePatch::Rim> chained(const std::map<std::pair<int, int>, int>& uses,
                                    const PlaceNumbers& places) {
  std::vector<int> group(places.count());
  std::iota(group.begin(), group.end(), 0);
  const auto root = [&](int i) {
    while (group[static_cast<std::size_t>(i)] != i) i = group[static_cast<std::size_t>(i)];
    return i;
  };
  for (const auto& [edge, count] : uses)
    if (count == 1) group[static_cast<std::size_t>(root(edge.first))] = root(edge.second);
  std::map<int, FacePatch::Rim> rims;
  for (const auto& [edge, count] : uses)
    if (count == 1)
      rims[root(edge.first)].push_back({places.at(edge.first), places.at(edge.second)});
  std::vector<FacePatch::Rim> sorted;
  for (auto& [key, rim] : rims) sorted.push_back(std::move(rim));
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return length_of(a) > length_of(b); });
  return sorted;
}

}  // namespace

FacePatch::FacePatch(const Geometry& geometry, const std::vector<FaceId>& faces) {
  const SurfaceTriangles& surface = geometry.surface;
  constexpr double same = 1e-6;  // of the part's size
  PlaceNumbers places(same * geometry.box.diagonal());
  std::map<std::pair<int, int>, int> uses;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    if (std::find(faces.begin(), faces.end(), face) == faces.end()) continue;
    const FlatTriangle triangle = flat_triangle(surface, t);
    middles_.emplace_back((triangle.a + triangle.b + triangle.c) / 3.0);
    areas_.push_back(0.5 * triangle.outward().norm());
    const std::array<int, 3> corners = {places.of(triangle.a), places.of(triangle.b),
                                        places.of(triangle.c)};
    for (std::size_t i = 0; i < 3; ++i)
      if (corners[i] != corners[(i + 1) % 3])
        ++uses[std::minmax({corners[i], corners[(i + 1) % 3]})];
  }
  rims_ = chained(uses, places);
}

double distance_to(const std::vector<FacePatch::Segment>& segments, const Eigen::Vector3d& point) {
  double least = std::numeric_limits<double>::infinity();
  for (const FacePatch::Segment& s : segments) {
    const Eigen::Vector3d along = s.b - s.a;
    const double share =
        std::clamp((point - s.a).dot(along) / std::max(along.squaredNorm(), 1e-300), 0.0, 1.0);
    least = std::min(least, (point - s.a - share * along).norm());
  }
  return least;
}

std::vector<FacePatch::Segment> segments_from(const std::vector<FacePatch::Rim>& rims,
                                              std::size_t first) {
  std::vector<FacePatch::Segment> all;
  for (std::size_t i = first; i < rims.size(); ++i)
    all.insert(all.end(), rims[i].begin(), rims[i].end());
  return all;
}

}  // namespace crossgrain
