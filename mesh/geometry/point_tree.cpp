// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/point_tree.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <nanoflann.hpp>

namespace crossgrain {
namespace {

/// The points as nanoflann wants to see them.
struct Cloud {
  std::vector<Eigen::Vector3d> points;
  std::size_t kdtree_get_point_count() const { return points.size(); }
  double kdtree_get_pt(std::size_t i, std::size_t axis) const {
    return points[i][static_cast<Eigen::Index>(axis)];
  }
  template <class Box>
  bool kdtree_get_bbox(Box&) const {
    return false;
  }
};

using Index = nanoflann::KDTreeSingleIndexAdaptor<nanoflann::L2_Simple_Adaptor<double, Cloud>,
                                                  Cloud, 3, std::size_t>;

}  // namespace

struct PointTree::Tree {
  explicit Tree(std::vector<Eigen::Vector3d> points)
      : cloud{std::move(points)}, index(3, cloud, nanoflann::KDTreeSingleIndexAdaptorParams(10)) {}
  Cloud cloud;
  Index index;
};

PointTree::PointTree(std::vector<Eigen::Vector3d> points)
    : tree_(std::make_unique<Tree>(std::move(points))) {}
PointTree::~PointTree() = default;
PointTree::PointTree(PointTree&&) noexcept = default;

std::size_t PointTree::size() const { return tree_->cloud.points.size(); }

void PointTree::nearest(const Eigen::Vector3d& place, unsigned count,
                        std::vector<Near>& found) const {
  found.clear();
  if (size() == 0) return;
  std::array<std::size_t, most_asked> numbers;
  std::array<double, most_asked> squares;
  nanoflann::KNNResultSet<double, std::size_t> result(std::min(count, most_asked));
  result.init(numbers.data(), squares.data());
  tree_->index.findNeighbors(result, place.data(), nanoflann::SearchParams());
  for (std::size_t i = 0; i < result.size(); ++i)
    found.push_back({static_cast<int>(numbers[i]), std::sqrt(squares[i])});
}

void PointTree::within(int number, double distance, std::vector<int>& found) const {
  static thread_local std::vector<std::pair<std::size_t, double>> pairs;
  nanoflann::SearchParams parameters;
  parameters.sorted = false;
  tree_->index.radiusSearch(tree_->cloud.points[static_cast<std::size_t>(number)].data(),
                            distance * distance, pairs, parameters);
  found.clear();
  for (const auto& [other, square] : pairs) found.push_back(static_cast<int>(other));
}

}  // namespace crossgrain
