// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/size_field.h"

#include <algorithm>
#include <queue>

namespace crossgrain {
namespace {

std::vector<Eigen::Vector3d> places_of(const std::vector<SizedPoint>& points) {
  std::vector<Eigen::Vector3d> places;
  places.reserve(points.size());
  for (const SizedPoint& point : points) places.push_back(point.point);
  return places;
}

/// Take out points that stand within a quarter of an edge from one that asks for no more.
std::vector<SizedPoint> thinned(std::vector<SizedPoint> points) {
  std::stable_sort(points.begin(), points.end(),
                   [](const SizedPoint& a, const SizedPoint& b) { return a.size < b.size; });
  std::vector<SizedPoint> kept;
  const PointTree tree(places_of(points));
  const auto apart = [&](int i) { return 0.25 * points[static_cast<std::size_t>(i)].size; };
  for (const int i : tree.spread(apart)) kept.push_back(points[static_cast<std::size_t>(i)]);
  return kept;
}

/// Let no size exceed a neighbour's plus growth times distance, starting from the smallest (the
/// shortest-path algorithm of Dijkstra with sizes for lengths).
void limit_growth(std::vector<SizedPoint>& points, const PointTree& places) {
  constexpr unsigned neighbours = 10;
  using Item = std::pair<double, int>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
  for (std::size_t i = 0; i < points.size(); ++i) queue.push({points[i].size, static_cast<int>(i)});
  std::vector<PointTree::Near> near;
  while (!queue.empty()) {
    const auto [size, i] = queue.top();
    queue.pop();
    const SizedPoint& from = points[static_cast<std::size_t>(i)];
    if (size > from.size) continue;  // an old entry
    places.nearest(from.point, neighbours, near);
    for (const PointTree::Near& neighbour : near) {
      double& to = points[static_cast<std::size_t>(neighbour.number)].size;
      const double allowed = from.size + size_growth * neighbour.distance;
      if (allowed < to) {
        to = allowed;
        queue.push({allowed, neighbour.number});
      }
    }
  }
}

}  // namespace

SizeField::SizeField(std::vector<SizedPoint> points, AskedSizes asked, double greatest)
    : points_(thinned(std::move(points))),
      places_(places_of(points_)),
      asked_(std::move(asked)),
      greatest_(greatest) {
  limit_growth(points_, places_);
}

double SizeField::on_surface(const Eigen::Vector3d& place) const {
  return asked_.on_surface(place, of_part(place));
}

double SizeField::inside(const Eigen::Vector3d& place) const {
  return asked_.inside(place, of_part(place));
}

double SizeField::of_part(const Eigen::Vector3d& place) const {
  double size = greatest_;
  thread_local std::vector<PointTree::Near> near;
  places_.nearest(place, 2, near);
  for (const PointTree::Near& neighbour : near)
    size = std::min(size, points_[static_cast<std::size_t>(neighbour.number)].size +
                              size_growth * neighbour.distance);
  return size;
}

}  // namespace crossgrain
