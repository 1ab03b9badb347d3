// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/size_field.h"

#include <algorithm>
#include <queue>

namespace crossgrain {
namespace {

/// Take out points that stand close beside one that asks for no more: from the smallest size up, a
/// point is kept if no kept one lies within a quarter of its own size.
/// @param places  filled with the kept points.
std::vector<SizedPoint> thinned(std::vector<SizedPoint> points, PointTree& places) {
  std::stable_sort(points.begin(), points.end(),
                   [](const SizedPoint& a, const SizedPoint& b) { return a.size < b.size; });
  std::vector<SizedPoint> kept;
  for (const SizedPoint& point : points) {
    if (places.any_within(point.point, 0.25 * point.size)) continue;
    places.insert(point.point);
    kept.push_back(point);
  }
  return kept;
}

/// Let no size exceed a neighbour's plus growth times distance, starting from the smallest (the
/// shortest-path algorithm of Dijkstra with sizes for lengths).
void limit_growth(std::vector<SizedPoint>& points, const PointTree& places) {
  constexpr unsigned neighbours = 10;
  using Item = std::pair<double, int>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
  for (std::size_t i = 0; i < points.size(); ++i)
    queue.push({points[i].size, static_cast<int>(i)});
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

SizeField::SizeField(std::vector<SizedPoint> points, std::vector<SizeBall> balls, double greatest)
    : balls_(std::move(balls)), greatest_(greatest) {
  points_ = thinned(std::move(points), places_);
  limit_growth(points_, places_);
}

double SizeField::at(const Eigen::Vector3d& place) const {
  double size = greatest_;
  for (const SizeBall& ball : balls_) {
    const double outside = std::max(0.0, (place - ball.centre).norm() - ball.radius);
    size = std::min(size, ball.size + size_growth * outside);
  }
  thread_local std::vector<PointTree::Near> near;
  places_.nearest(place, 2, near);
  for (const PointTree::Near& neighbour : near)
    size = std::min(size, points_[static_cast<std::size_t>(neighbour.number)].size +
                              size_growth * neighbour.distance);
  return size;
}

}  // namespace crossgrain
