// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/conditions/material.h"
#include "materials/elasticity/frame.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Which material, turned which way, is at every quadrature point.
/// Materials are numbered; each tetrahedron names one. Frames are numbered as well: one per body
/// while a body has one print direction, one per point when layers follow a wall. Changing a print
/// direction changes `frames` only.
struct MaterialField {
  std::vector<SolidMaterial> materials;
  std::vector<int> material_of_tetrahedron;
  std::vector<Frame> frames;
  /// Row: tetrahedron; column: point of stiffness_rule(), or a single column that serves all points
  /// of the element.
  Eigen::MatrixXi frame_of_point;

  const SolidMaterial& material(Eigen::Index tetrahedron) const {
    return materials[material_of_tetrahedron[tetrahedron]];
  }
  bool one_frame_per_element() const { return frame_of_point.cols() == 1; }
  int frame_number(Eigen::Index tetrahedron, Eigen::Index point) const {
    return frame_of_point(tetrahedron, one_frame_per_element() ? 0 : point);
  }
  const Frame& frame(Eigen::Index tetrahedron, Eigen::Index point) const {
    return frames[frame_number(tetrahedron, point)];
  }
};

/// Refuse a field that does not fit a mesh: sizes, numbers out of range, a density that is not
/// positive.
/// @param points  of the quadrature rule in use.
/// @throws std::invalid_argument
void require_fits(const MaterialField& field, const TetrahedronMesh& mesh, Eigen::Index points);

/// Numbers of the frames that some bodies have.
std::vector<int> frames_of_bodies(const MaterialField& field, const TetrahedronMesh& mesh,
                                  const std::vector<BodyId>& bodies);

/// The same with some of its frames along a build direction.
/// @param turning  numbers of these frames.
MaterialField with_frames_along(MaterialField field, const std::vector<int>& turning,
                                const Eigen::Vector3d& direction);

/// One material and one frame per body.
/// @param material_of_body, frame_of_body  indexed by body.
/// @throws std::invalid_argument if a body of the mesh has none.
MaterialField uniform_field(const TetrahedronMesh& mesh,
                            const std::vector<SolidMaterial>& material_of_body,
                            const std::vector<Frame>& frame_of_body);

}  // namespace crossgrain
