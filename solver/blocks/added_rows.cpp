// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/added_rows.h"

#include <algorithm>
#include <numeric>

#include "solver/elements/parallel.h"

namespace crossgrain {

template <class Scalar>
AddedRows<Scalar>::AddedRows(const AddedBlocks& added, int threads) : threads_(threads) {
  for (const auto& block : added) {
    node_.push_back(block.row);
    node_.push_back(block.column);
  }
  std::sort(node_.begin(), node_.end());
  node_.erase(std::unique(node_.begin(), node_.end()), node_.end());
  const auto place = [this](int node) {
    return std::lower_bound(node_.begin(), node_.end(), node) - node_.begin();
  };
  start_.assign(node_.size() + 1, 0);
  for (const auto& block : added) {
    ++start_[place(block.row) + 1];
    if (block.row != block.column) ++start_[place(block.column) + 1];
  }
  std::partial_sum(start_.begin(), start_.end(), start_.begin());
  entries_.resize(start_.back());
  std::vector<Eigen::Index> next(start_.begin(), start_.end() - 1);
  for (const auto& [row, column, value] : added) {
    entries_[next[place(row)]++] = {column, value.template cast<Scalar>()};
    if (row != column)
      entries_[next[place(column)]++] = {row, value.transpose().template cast<Scalar>()};
  }
}

template <class Scalar>
void AddedRows<Scalar>::add_product(const NodeVectors<Scalar>& x, NodeVectors<Scalar>& y) const {
  in_parallel(std::ssize(node_), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto row = begin; row < end; ++row)
      for (int c = 0; c < x.columns(); ++c) {
        Eigen::Matrix<Scalar, 3, 1> sum = Eigen::Matrix<Scalar, 3, 1>::Zero();
        for (auto k = start_[row]; k < start_[row + 1]; ++k)
          sum += entries_[k].block * x.at(entries_[k].column, c).template head<3>();
        y.at(node_[row], c).template head<3>() += sum;
      }
  });
}

template class AddedRows<float>;
template class AddedRows<double>;

}  // namespace crossgrain
