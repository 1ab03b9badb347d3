// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/growing_sizes.h"

#include <algorithm>
#include <utility>

namespace crossgrain {

using Eigen::Vector3d;

namespace {

constexpr int most_in_a_leaf = 8;

}  // namespace

GrowingSizes::GrowingSizes(std::vector<SizedPoint> points) : points_(std::move(points)) {
  if (!points_.empty()) build(0, static_cast<int>(points_.size()));
}

int GrowingSizes::build(int begin, int end) {
  const auto first = points_.begin() + begin, last = points_.begin() + end;
  Node node{first->point, first->point, first->size, begin, end};
  for (auto at = first; at != last; ++at) {
    node.low = node.low.cwiseMin(at->point);
    node.high = node.high.cwiseMax(at->point);
    node.least = std::min(node.least, at->size);
  }
  const int number = static_cast<int>(nodes_.size());
  nodes_.push_back(node);
  if (end - begin <= most_in_a_leaf) return number;
  Eigen::Index axis = 0;
  (node.high - node.low).maxCoeff(&axis);
  const int middle = begin + (end - begin) / 2;
  std::nth_element(
      first, points_.begin() + middle, last,
      [axis](const SizedPoint& a, const SizedPoint& b) { return a.point[axis] < b.point[axis]; });
  build(begin, middle);
  const int second = build(middle, end);
  nodes_[static_cast<std::size_t>(number)].second = second;
  return number;
}

double GrowingSizes::at(const Vector3d& place, double greatest) const {
  double size = greatest;
  if (!nodes_.empty()) lower(0, place, size);
  return size;
}

double GrowingSizes::bound(const Node& node, const Vector3d& place) const {
  const Vector3d off = (node.low - place).cwiseMax(place - node.high).cwiseMax(0.0);
  return node.least + size_growth * off.norm();
}

void GrowingSizes::lower(int number, const Vector3d& place, double& size) const {
  const Node& node = nodes_[static_cast<std::size_t>(number)];
  if (bound(node, place) >= size) return;
  if (node.second < 0) {
    for (int i = node.begin; i < node.end; ++i) {
      const SizedPoint& point = points_[static_cast<std::size_t>(i)];
      size = std::min(size, point.size + size_growth * (place - point.point).norm());
    }
    return;
  }
  int near = number + 1, far = node.second;
  if (bound(nodes_[static_cast<std::size_t>(far)], place) <
      bound(nodes_[static_cast<std::size_t>(near)], place))
    std::swap(near, far);
  lower(near, place, size);
  lower(far, place, size);
}

}  // namespace crossgrain
