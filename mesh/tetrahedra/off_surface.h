// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <optional>

#include "mesh/step/conformal_shape.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A node of a boundary triangle that does not lie on the triangle's CAD face.
struct OffSurface {
  FaceId face;
  Eigen::Vector3d position;  ///< [mm]
  double distance;           ///< from the face's surface [mm]
};

/// Nodes may lie off their face by this part of the triangle's longest edge: a single node of a
/// pressed bore that was moved by a hundredth of an edge changed the stress there by 2 % of the
/// largest, by a tenth 18 % (Lamé's cylinder, four and eight elements through the wall) [-].
inline constexpr double off_surface_share = 0.005;

/// The first node found that lies farther off its face than that. A middle may lie anywhere between
/// the face and the straight edge, where a tangled element has been straightened.
std::optional<OffSurface> node_off_surface(const TetrahedronMesh& mesh,
                                           const ConformalShape& shape);

}  // namespace crossgrain
