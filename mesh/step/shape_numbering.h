// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS_Face.hxx>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/step_document.h"

namespace crossgrain {

/// Faces and edges in the order in which they are first met, walking solid by solid and face by
/// face; a position counts from 1 and is the id. Oriented as in their solids.
// NOLINTNEXTLINE(bugprone-exception-escape): the kernel's maps may throw when moved
struct ShapeNumbering {
  TopTools_IndexedMapOfShape faces;
  TopTools_IndexedMapOfShape edges;
};

ShapeNumbering number_shapes(const std::vector<LabelledSolid>& solids);

/// The face's boundary, outer loop first, each with the face on its left seen from outside.
std::vector<std::vector<LoopEdge>> loops_of(const TopoDS_Face& face, const ShapeNumbering& numbers);

/// The solid's shells, outer first, as the faces they hold.
std::vector<std::vector<FaceId>> shells_of(const TopoDS_Solid& solid,
                                           const ShapeNumbering& numbers);

}  // namespace crossgrain
