// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/free_directions.h"

#include <cmath>

#include "solver/elements/parallel.h"

namespace crossgrain {

FreeDirections::FreeDirections(Eigen::Index nodes, std::vector<HeldNode> held)
    : held_(std::move(held)), number_(nodes, -1) {
  for (std::size_t k = 0; k < held_.size(); ++k) number_[held_[k].node] = static_cast<int>(k);
}

Eigen::Index FreeDirections::count() const {
  Eigen::Index held = 0;
  for (const auto& node : held_) held += 3 - std::lround(node.free.trace());
  return 3 * std::ssize(number_) - held;
}

Eigen::Matrix3d FreeDirections::at(int node) const {
  return number_[node] < 0 ? Eigen::Matrix3d::Identity() : held_[number_[node]].free;
}

template <class Scalar>
void FreeDirections::project(NodeVectors<Scalar>& vectors) const {
  for (const auto& node : held_)
    for (int c = 0; c < vectors.columns(); ++c) {
      auto value = vectors.at(node.node, c).template head<3>();
      value = (node.free.template cast<Scalar>() * value).eval();
    }
}

Eigen::Matrix3d FreeDirections::projected_diagonal(int node, const Eigen::Matrix3d& K) const {
  const double mean = K.trace() / 3.0;
  if (!(mean > 0.0)) return Eigen::Matrix3d::Identity();
  if (number_[node] < 0) return K;
  const Eigen::Matrix3d free = at(node);
  return free * K * free + mean * (Eigen::Matrix3d::Identity() - free);
}

template <class Scalar>
void FreeDirections::project(const BlockPattern& pattern, const Blocks<double>& K,
                             Blocks<Scalar>& projected, int threads) const {
  if (projected.size() != K.size()) projected.resize(K.size());
  in_parallel(pattern.nodes(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      const auto diagonal = pattern.row_start[i];
      projected[diagonal] =
          projected_diagonal(static_cast<int>(i), K[diagonal]).template cast<Scalar>();
      for (auto k = diagonal + 1; k < pattern.row_start[i + 1]; ++k) {
        const int j = pattern.column[k];
        if (number_[i] < 0 && number_[j] < 0)
          projected[k] = K[k].template cast<Scalar>();
        else
          projected[k] = (at(static_cast<int>(i)) * K[k] * at(j)).template cast<Scalar>();
      }
    }
  });
}

AddedBlocks FreeDirections::projected(AddedBlocks added) const {
  for (auto& [row, column, value] : added)
    if (number_[row] >= 0 || number_[column] >= 0) value = (at(row) * value * at(column)).eval();
  return added;
}

template void FreeDirections::project(NodeVectors<float>&) const;
template void FreeDirections::project(NodeVectors<double>&) const;
template void FreeDirections::project(const BlockPattern&, const Blocks<double>&, Blocks<float>&,
                                      int) const;
template void FreeDirections::project(const BlockPattern&, const Blocks<double>&, Blocks<double>&,
                                      int) const;

}  // namespace crossgrain
