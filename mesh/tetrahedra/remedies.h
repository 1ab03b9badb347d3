// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace crossgrain {

/// One way to try a mesh again that failed, crashed or hung: what differs from the first try.
struct Remedy {
  std::string words;            ///< for the report; empty for the first try
  double size_factor = 1.0;     ///< on every size [-]
  bool mesh_adapt = false;      ///< the slower, more robust surface mesher
  double least_size = 0.0;      ///< share of the box's diagonal below which no edge goes [-]
  bool free_of_layers = false;  ///< no points placed inside the walls
};

/// The first try and then the ladder, from the mildest rung to the boldest.
std::vector<Remedy> ladder_of_remedies();

}  // namespace crossgrain
