// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/assembly/linear_level.h"
#include "solver/assembly/node_order.h"
#include "solver/blocks/block_matrix.h"

namespace crossgrain {

/// The elements as the linear system keeps them: by the least rank of their nodes, so that
/// neighbours in the list touch the same rows.
struct RankedElements {
  std::vector<int> tetrahedron;                  ///< number in the mesh
  Eigen::Matrix<int, 10, Eigen::Dynamic> ranks;  ///< of its nodes, in the mesh's order of them

  Eigen::Index count() const { return ranks.cols(); }
};

RankedElements ranked_elements(const TetrahedronMesh& mesh, const NodeOrder& order, int threads);

/// Nodes that share an element, by rank. A node of no element keeps its diagonal.
BlockPattern node_pattern(const RankedElements& elements, Eigen::Index nodes, int threads);

/// Corners that share an edge, by corner number.
BlockPattern corner_pattern(const LinearLevel& level);

}  // namespace crossgrain
