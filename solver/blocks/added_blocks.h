// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/block_matrix.h"

namespace crossgrain {

/// A block of a symmetric matrix; unless it is on the diagonal its transpose stands at (column,
/// row).
struct AddedBlock {
  int row, column;
  Eigen::Matrix3d value;
};

/// Blocks added to a matrix whose pattern need not have them: column >= row, ascending, each once.
using AddedBlocks = std::vector<AddedBlock>;

/// In order, each place once; what has column < row is mirrored.
AddedBlocks summed(std::vector<AddedBlock> blocks);

/// Whether every place is in the pattern.
bool covers(const BlockPattern& pattern, const AddedBlocks& added);
/// The pattern and the places of the blocks.
BlockPattern extended(const BlockPattern& pattern, const AddedBlocks& added);
/// A + added on a pattern that has the places of both.
void add(const BlockPattern& pattern, const Blocks<double>& A, const AddedBlocks& added,
         const BlockPattern& of_sum, Blocks<double>& sum);

}  // namespace crossgrain
