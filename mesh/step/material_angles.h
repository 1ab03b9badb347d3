// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include "mesh/step/shape_numbering.h"

namespace crossgrain {

/// Set every edge's material_angle from the normals of its two faces. Faces and their loops must
/// be there.
void measure_material_angles(Geometry& geometry, const ShapeNumbering& numbers);

}  // namespace crossgrain
