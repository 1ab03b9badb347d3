// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/assembly/linear_level.h"
#include "solver/blocks/added_blocks.h"

namespace crossgrain {

/// Blocks between nodes, by rank, as corners meet them when mid-side nodes follow their edges'
/// ends.
AddedBlocks at_corners(const AddedBlocks& added, const LinearLevel& level);

}  // namespace crossgrain
