// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Face.hxx>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// The form of a face: kind, axis, radii, extents, side and box; the other members stay empty.
/// @param face  oriented as in its solid, so that its normal points out of the body.
CadFace describe_face(const TopoDS_Face& face);

}  // namespace crossgrain
