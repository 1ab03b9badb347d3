// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/features/features.h"

namespace crossgrain {

/// Rings and rows of at least three equal parallel holes of one body with their mouths in one
/// plane; a ring may lack a few of its holes. Each hole is in one pattern at most, the larger one.
std::vector<HolePattern> find_patterns(const std::vector<Hole>& holes, const Geometry& geometry);

}  // namespace crossgrain
