// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// A wall is where the ray along the inward normal leaves through a face within 50 degrees of
/// parallel; else it is an edge, which no number of layers fills to its tip. Cosine of the angle
/// between ray and normal [-]. Common practice, no source.
inline constexpr double least_wall_cosine = 0.643;

}  // namespace crossgrain
