// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"
#include "tools/results/page_arrays.h"

namespace crossgrain {

/// The CAD's surface as a page carries it: points x y z, those of the edges' courses last, to a
/// part in 16 million, so that whether a triangle lies on the plate is told as the program tells
/// it; triangles with their faces; how many points each edge has, and two bodies that it belongs
/// to.
std::vector<PackedArray> surface_arrays(const Geometry& geometry);

}  // namespace crossgrain
