// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "tools/bench/bench_part.h"

namespace crossgrain::bench {

/// Write the assembled system on its free nodes for the peers, as plain arrays of the machine's own
/// byte order, int32 and float64: full rows of 3x3 blocks (row_start, column, blocks row by row),
/// forces, coordinates, and the interpolation from corners to nodes (p_start, p_column, p_value).
void write_system(const Part& part, const MaterialField& field,
                  const std::filesystem::path& directory);

}  // namespace crossgrain::bench
