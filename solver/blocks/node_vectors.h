// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

/// Several vectors of three components per node, interleaved: all columns of one node lie together,
/// so that one pass over a matrix serves them all. Four lanes each, the last always zero.
template <class Scalar>
class NodeVectors {
 public:
  NodeVectors() = default;
  NodeVectors(Eigen::Index nodes, int columns)
      : nodes_(nodes), columns_(columns), lanes_(Lanes::Zero(4, nodes * columns)) {}

  Eigen::Index nodes() const { return nodes_; }
  int columns() const { return columns_; }
  bool empty() const { return lanes_.size() == 0; }

  auto at(Eigen::Index node, int column) { return lanes_.col(node * columns_ + column); }
  auto at(Eigen::Index node, int column) const { return lanes_.col(node * columns_ + column); }
  /// Nodes begin..end, all columns: 4 x ((end - begin) columns).
  auto range(Eigen::Index begin, Eigen::Index end) {
    return lanes_.middleCols(begin * columns_, (end - begin) * columns_);
  }
  auto range(Eigen::Index begin, Eigen::Index end) const {
    return lanes_.middleCols(begin * columns_, (end - begin) * columns_);
  }
  Scalar* data() { return lanes_.data(); }
  const Scalar* data() const { return lanes_.data(); }
  bool all_finite() const { return lanes_.allFinite(); }

 private:
  using Lanes = Eigen::Matrix<Scalar, 4, Eigen::Dynamic>;
  Eigen::Index nodes_ = 0;
  int columns_ = 0;
  Lanes lanes_;
};

}  // namespace crossgrain
