// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/node_adjacency.h"

namespace crossgrain {

NodeAdjacency::NodeAdjacency(const TetrahedronMesh& mesh)
    : start_(mesh.node_count() + 1, 0), incidences_(mesh.tetrahedra.size()) {
  for (int node : mesh.tetrahedra.reshaped()) ++start_[node + 1];
  for (std::size_t node = 1; node < start_.size(); ++node) start_[node] += start_[node - 1];
  std::vector<int> next(start_.begin(), start_.end() - 1);
  for (int t = 0; t < mesh.tetrahedron_count(); ++t)
    for (int local = 0; local < 10; ++local)
      incidences_[next[mesh.tetrahedra(local, t)]++] = {t, local};
}

}  // namespace crossgrain
