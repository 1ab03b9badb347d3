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

/// By sampling, within a few hundredths. Chords of the bodies are drawn so that all lines through
/// them are equally likely: each begins at a random point of the surface, with the cosine law about
/// the normal. The mean over such chords of a function's integral along them, times area / 4, is
/// its integral over the volume (for the function 1 this is Cauchy's mean chord; integral geometry,
/// from memory).
/// @param rays  one per body; those of bodies that are not modelled are not used.
SizedExtent extent_in_sizes(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                            const SizeField& sizes);

/// Unknowns of the quadratic mesh that sizes will lead to. Fitted to twenty meshes of parts, ours
/// and others': all within a fifth.
double expected_unknowns(const SizedExtent& extent);

/// Unknowns that a mesh of straight edges will have when its edges get middle nodes.
Eigen::Index unknowns_when_curved(const TetrahedronMesh& straight);

}  // namespace crossgrain
