// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/features.h"
#include "mesh/geometry.h"

namespace crossgrain {

/// A CAD face so that someone finds it on the part: "face 14, "gasket ring", flat", "face 7, wall
/// of hole 2, 6.4 mm", "face 3, bore of radius 30 mm". Not yet fit for Markdown: the name is as the
/// STEP file has it.
std::string face_text(const Geometry& geometry, const Features& features, FaceId face);

}  // namespace crossgrain
