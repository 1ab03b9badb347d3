// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/tetrahedra/size_field.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// How large the modelled bodies are, measured in edges of the size wanted there.
struct SizedExtent {
  double volume;  ///< integral of 1 / size^3 over the bodies [-]
  double area;    ///< integral of 1 / size^2 over their surfaces [-]
};

/// The volume by sampling, within a few hundredths: at one random point in each of many cubes that
/// are the smaller the shorter the edges, so that no small place of fine elements is missed.
/// @param rays  one per body; those of bodies that are not modelled are not used.
SizedExtent extent_in_sizes(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                            const SizeField& sizes);

/// Unknowns of the quadratic mesh that sizes will lead to. Fitted to twenty meshes of parts, ours
/// and others': all within a fifth; within a half where sizes asked from outside govern.
double expected_unknowns(const SizedExtent& extent);

/// Unknowns that a mesh of straight edges will have when its edges get middle nodes.
Eigen::Index unknowns_when_curved(const TetrahedronMesh& straight);

}  // namespace crossgrain
