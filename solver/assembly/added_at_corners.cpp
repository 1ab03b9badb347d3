// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/added_at_corners.h"

namespace crossgrain {
namespace {

/// The corners that a node follows, and by how much.
struct Followed {
  std::array<int, 2> corner;
  int count;
  double share;
};

Followed followed_by(int rank, const LinearLevel& level) {
  const auto& ends = level.ends()[rank];
  return ends[0] == ends[1] ? Followed{ends, 1, 1.0} : Followed{ends, 2, 0.5};
}

}  // namespace

AddedBlocks at_corners(const AddedBlocks& added, const LinearLevel& level) {
  std::vector<AddedBlock> blocks;
  for (const auto& [row, column, value] : added) {
    const Followed of_row = followed_by(row, level), of_column = followed_by(column, level);
    const Eigen::Matrix3d shared = of_row.share * of_column.share * value;
    for (int m = 0; m < of_row.count; ++m)
      for (int n = row == column ? m : 0; n < of_column.count; ++n) {
        const int i = of_row.corner[m], j = of_column.corner[n];
        // Where two nodes follow one corner, both halves of the matrix meet on its diagonal.
        const bool twice = row != column && i == j;
        blocks.push_back({i, j, twice ? shared + shared.transpose() : shared});
      }
  }
  return summed(std::move(blocks));
}

}  // namespace crossgrain
