// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/reduced_unknowns.h"

namespace crossgrain {

using SmallBlock = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3, 3>;

ReducedUnknowns::ReducedUnknowns(const std::vector<int>& group_of_node,
                                 const std::vector<NodeConstraint>& constraints)
    : free_(group_of_node.size(), NodeDirections(Eigen::Matrix3d::Identity())), first_(1, 0) {
  for (const auto& constraint : constraints) free_[constraint.node] = complement(constraint.held);
  for (std::size_t i = 0; i < free_.size(); ++i) {
    if (group_of_node[i] < 0) free_[i].resize(3, 0);
    first_.push_back(first_.back() + free_[i].cols());
  }
}

Eigen::MatrixXd ReducedUnknowns::restricted(const Eigen::MatrixXd& full) const {
  Eigen::MatrixXd reduced(count(), full.cols());
  for (Eigen::Index i = 0; i < std::ssize(free_); ++i)
    reduced.middleRows(first_[i], free_[i].cols()) =
        free_[i].transpose() * full.middleRows<3>(3 * i);
  return reduced;
}

Eigen::MatrixXd ReducedUnknowns::expanded(const Eigen::MatrixXd& reduced) const {
  Eigen::MatrixXd full(3 * std::ssize(free_), reduced.cols());
  for (Eigen::Index i = 0; i < std::ssize(free_); ++i)
    full.middleRows<3>(3 * i) = free_[i] * reduced.middleRows(first_[i], free_[i].cols());
  return full;
}

void ReducedUnknowns::lay_out(const BlockMatrix& K, LowerTriangle& lower) const {
  lower.column_start.assign(1, 0);
  for (Eigen::Index i = 0; i < K.nodes(); ++i) {
    for (Eigen::Index column = first_[i]; column < first_[i + 1]; ++column) {
      for (Eigen::Index row = column; row < first_[i + 1]; ++row) lower.row.push_back(row);
      for (Eigen::Index k = K.row_start[i] + 1; k < K.row_start[i + 1]; ++k)
        for (Eigen::Index row = first_[K.column[k]]; row < first_[K.column[k] + 1]; ++row)
          lower.row.push_back(row);
      lower.column_start.push_back(std::ssize(lower.row));
    }
  }
  lower.value.resize(lower.row.size());
}

void ReducedUnknowns::reduce(const BlockMatrix& K, LowerTriangle& lower) const {
  if (lower.column_start.empty()) lay_out(K, lower);
  for (Eigen::Index i = 0; i < K.nodes(); ++i) {
    const auto columns = free_[i].cols();
    // Where each of the node's columns goes on being filled.
    Eigen::Index next[3];
    for (Eigen::Index c = 0; c < columns; ++c) next[c] = lower.column_start[first_[i] + c];
    for (Eigen::Index k = K.row_start[i]; k < K.row_start[i + 1]; ++k) {
      const Eigen::Index j = K.column[k];
      const SmallBlock block = free_[j].transpose() * (K.block(k).transpose() * free_[i]);
      for (Eigen::Index c = 0; c < columns; ++c)
        for (Eigen::Index r = (j == i ? c : 0); r < block.rows(); ++r)
          lower.value[next[c]++] = block(r, c);
    }
  }
}

}  // namespace crossgrain
