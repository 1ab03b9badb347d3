// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/judgement/run_result.h"
#include "mesh/features/features.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// A CAD face so that someone finds it on the part: "face 14, "gasket ring", flat", "face 7, wall
/// of hole 2, 6.4 mm", "face 3, bore of radius 30 mm". Not yet fit for Markdown: the name is as the
/// STEP file has it.
std::string face_text(const Geometry& geometry, const Features& features, FaceId face);

/// An inner edge with the material's angle and its faces: "inner edge 12 (270 degrees of material)
/// between face 1, flat, and face 4, bore of radius 30 mm".
std::string edge_text(const Geometry& geometry, const Features& features, EdgeId edge);

/// Where a mode is worst: "(0.0, 5.0, 10.0) mm, bowl, face 1, flat"; the body is named if the part
/// has several. Not yet fit for Markdown either.
std::string place_text(const Geometry& geometry, const Features& features, const ModeResult& mode);

}  // namespace crossgrain
