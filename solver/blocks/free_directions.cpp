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

template <class Scalar>
void FreeDirections::project(const BlockPattern& pattern, const Blocks<double>& K,
                             Blocks<Scalar>& projected, int threads) const {
  if (projected.size() != K.size()) projected.resize(K.size());
  in_parallel(pattern.nodes(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      for (auto k = pattern.row_start[i]; k < pattern.row_start[i + 1]; ++k) {
        const int j = pattern.column[k];
        if (number_[i] < 0 && number_[j] < 0)
          projected[k] = K[k].template cast<Scalar>();
        else
          projected[k] = (at(static_cast<int>(i)) * K[k] * at(j)).template cast<Scalar>();
      }
      const auto diagonal = pattern.row_start[i];
      const double mean = K[diagonal].trace() / 3.0;
      if (!(mean > 0.0))
        projected[diagonal].setIdentity();
      else if (number_[i] >= 0)
        projected[diagonal] += (mean * (Eigen::Matrix3d::Identity() - at(static_cast<int>(i))))
                                   .template cast<Scalar>();
    }
  });
}

template void FreeDirections::project(NodeVectors<float>&) const;
template void FreeDirections::project(NodeVectors<double>&) const;
template void FreeDirections::project(const BlockPattern&, const Blocks<double>&, Blocks<float>&,
                                      int) const;
template void FreeDirections::project(const BlockPattern&, const Blocks<double>&, Blocks<double>&,
                                      int) const;

}  // namespace crossgrain
