// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS_Shape.hxx>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Triangulate the faces of the bodies.
/// @param faces   oriented as in their solids, in the order of their ids.
/// @param failed  receives the faces that got no triangle.
SurfaceTriangles triangulate(const TopoDS_Shape& shape, const TopTools_IndexedMapOfShape& faces,
                             double diagonal, std::vector<FaceId>& failed);

}  // namespace crossgrain
