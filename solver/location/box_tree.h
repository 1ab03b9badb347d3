// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Geometry>
#include <memory>
#include <vector>

namespace crossgrain {

/// Boxes that are searched for those which meet another one.
class BoxTree {
 public:
  explicit BoxTree(std::vector<Eigen::AlignedBox3d> boxes);
  ~BoxTree();
  BoxTree(BoxTree&&) noexcept;

  const Eigen::AlignedBox3d& box(int number) const {
    return boxes_[static_cast<std::size_t>(number)];
  }
  /// Numbers of the boxes that meet this one, ascending.
  std::vector<int> meeting(const Eigen::AlignedBox3d& box) const;

 private:
  struct Tree;
  std::vector<Eigen::AlignedBox3d> boxes_;
  std::unique_ptr<Tree> tree_;
};

}  // namespace crossgrain
