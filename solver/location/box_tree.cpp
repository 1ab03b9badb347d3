// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/location/box_tree.h"

#include <algorithm>
#include <numeric>
#include <unsupported/Eigen/BVH>

namespace crossgrain {

struct BoxTree::Tree {
  Eigen::KdBVH<double, 3, int> boxes;
};

namespace {

/// Gathers boxes, as Eigen's search of a tree wants it.
struct Gathering {
  const BoxTree& tree;
  const Eigen::AlignedBox3d& wanted;
  std::vector<int> found;

  bool intersectVolume(const Eigen::AlignedBox3d& volume) const {
    return volume.intersects(wanted);
  }
  bool intersectObject(int number) {
    if (tree.box(number).intersects(wanted)) found.push_back(number);
    return false;
  }
};

}  // namespace

BoxTree::BoxTree(std::vector<Eigen::AlignedBox3d> boxes)
    : boxes_(std::move(boxes)), tree_(std::make_unique<Tree>()) {
  std::vector<int> numbers(boxes_.size());
  std::iota(numbers.begin(), numbers.end(), 0);
  tree_->boxes.init(numbers.begin(), numbers.end(), boxes_.begin(), boxes_.end());
}

BoxTree::~BoxTree() = default;
BoxTree::BoxTree(BoxTree&&) noexcept = default;

std::vector<int> BoxTree::meeting(const Eigen::AlignedBox3d& box) const {
  Gathering search{*this, box, {}};
  Eigen::BVIntersect(tree_->boxes, search);
  std::sort(search.found.begin(), search.found.end());
  return std::move(search.found);
}

}  // namespace crossgrain
