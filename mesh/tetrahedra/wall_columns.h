// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/tetrahedra/mesh_sizes.h"

namespace crossgrain {

/// A point inside a body.
struct InnerPoint {
  Eigen::Vector3d point;  ///< [mm]
  BodyId body;
};

/// Points inside the walls, between the layers, for the mesher to keep. An element can then not
/// reach from one side of a wall to the other though its edges along the wall are long: a wall of
/// two layers needs a quarter of the elements that edges short everywhere would.
/// @param edge  the edge length at a point [mm].
std::vector<InnerPoint> points_between_layers(
    const std::vector<SurfaceSample>& samples, const SizeRules& rules,
    const std::vector<SurfaceRays>& rays,
    const std::function<double(const Eigen::Vector3d&)>& edge);

}  // namespace crossgrain
