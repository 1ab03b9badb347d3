// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/node_adjacency.h"

namespace crossgrain {

NodeAdjacency::NodeAdjacency(const Eigen::Matrix<int, 10, Eigen::Dynamic>& tetrahedra,
                             Eigen::Index nodes)
    : start_(nodes + 1, 0), incidences_(tetrahedra.size()) {
  for (int node : tetrahedra.reshaped()) ++start_[node + 1];
  for (std::size_t node = 1; node < start_.size(); ++node) start_[node] += start_[node - 1];
  std::vector<int> next(start_.begin(), start_.end() - 1);
  for (int t = 0; t < static_cast<int>(tetrahedra.cols()); ++t)
    for (int local = 0; local < 10; ++local) incidences_[next[tetrahedra(local, t)]++] = {t, local};
}

}  // namespace crossgrain
