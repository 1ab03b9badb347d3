// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/block_matrix.h"

#include <algorithm>

namespace crossgrain {

Eigen::Index BlockPattern::find(int row, int column_wanted) const {
  const auto begin = column.begin() + row_start[row];
  const auto end = column.begin() + row_start[row + 1];
  const auto place = std::lower_bound(begin, end, column_wanted);
  return place != end && *place == column_wanted ? place - column.begin() : -1;
}

}  // namespace crossgrain
