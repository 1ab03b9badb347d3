// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopTools_IndexedMapOfShape.hxx>
#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/step_document.h"

namespace crossgrain {

/// What only the kernel can see of modelled bodies that will trouble the mesher: shapes that break
/// its rules, faces whose parameters have no range, bodies that overlap and are not kept apart.
/// @param faces  in the order of their ids.
std::vector<std::string> shape_warnings(const std::vector<LabelledSolid>& solids,
                                        const TopTools_IndexedMapOfShape& faces,
                                        const Geometry& geometry,
                                        const std::vector<KeptApart>& apart);

}  // namespace crossgrain
