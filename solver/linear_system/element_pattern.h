// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/linear_system/block_matrix.h"
#include "solver/linear_system/linear_level.h"
#include "solver/linear_system/node_order.h"

namespace crossgrain {

/// Nodes that share an element, by rank. A node of no element keeps its diagonal.
BlockPattern node_pattern(const TetrahedronMesh& mesh, const NodeOrder& order, int threads);

/// Corners that share an edge, by corner number.
BlockPattern corner_pattern(const LinearLevel& level);

}  // namespace crossgrain
