// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/aggregation/level_transfer.h"

#include <numeric>

#include "solver/elements/parallel.h"

namespace crossgrain {

LevelTransfer::LevelTransfer(const BlockTable& P, int threads)
    : threads_(threads),
      row_start_(P.row_start),
      column_(P.column),
      column_start_(P.columns + 1, 0),
      entries_(P.column.size()) {
  blocks_.resize(std::ssize(P.block));
  for (Eigen::Index k = 0; k < blocks_.size(); ++k) blocks_[k] = P.block[k].cast<float>();
  for (const int column : column_) ++column_start_[column + 1];
  std::partial_sum(column_start_.begin(), column_start_.end(), column_start_.begin());
  std::vector<std::int64_t> next(column_start_.begin(), column_start_.end() - 1);
  for (Eigen::Index row = 0; row < P.rows(); ++row)
    for (auto k = row_start_[row]; k < row_start_[row + 1]; ++k)
      entries_[next[column_[k]]++] = {static_cast<int>(row), k};
}

void LevelTransfer::prolong(const NodeVectors<float>& coarse, NodeVectors<float>& fine) const {
  in_parallel(fine.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto row = begin; row < end; ++row)
      for (int c = 0; c < fine.columns(); ++c) {
        Eigen::Vector3f sum = Eigen::Vector3f::Zero();
        for (auto k = row_start_[row]; k < row_start_[row + 1]; ++k)
          sum.noalias() += blocks_[k] * coarse.at(column_[k], c).head<3>();
        fine.at(row, c).head<3>() = sum;
      }
  });
}

void LevelTransfer::restrict(const NodeVectors<float>& fine, NodeVectors<float>& coarse) const {
  in_parallel(coarse.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto column = begin; column < end; ++column)
      for (int c = 0; c < coarse.columns(); ++c) {
        Eigen::Vector3f sum = Eigen::Vector3f::Zero();
        for (auto m = column_start_[column]; m < column_start_[column + 1]; ++m)
          sum.noalias() +=
              blocks_[entries_[m].block].transpose() * fine.at(entries_[m].row, c).head<3>();
        coarse.at(column, c).head<3>() = sum;
      }
  });
}

}  // namespace crossgrain
