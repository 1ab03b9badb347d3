// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "mesh/geometry/ids.h"

namespace crossgrain {

/// Ten-node tetrahedra with curved sides, and their boundary triangles.
/// Node order: corners 0 1 2 3, then the middles of 01 12 20 03 13 23 (that of VTK's quadratic
/// tetrahedron); triangles: corners 0 1 2, then the middles of 01 12 20, counter-clockwise from
/// outside.
///
/// Bodies that touch share nodes. A triangle between two bodies stands twice in the list, once for
/// each: with that body's CAD face, that body's tetrahedron behind it, and outward from that body.
/// So the triangles of a body's faces close round it, and the triangles of a CAD face cover it.
struct TetrahedronMesh {
  Eigen::Matrix3Xd nodes;                             ///< 3 x nodes [mm]
  Eigen::Matrix<int, 10, Eigen::Dynamic> tetrahedra;  ///< positive orientation
  std::vector<BodyId> body_of_tetrahedron;
  Eigen::Matrix<int, 6, Eigen::Dynamic> triangles;  ///< on CAD faces
  std::vector<FaceId> face_of_triangle;
  std::vector<int> tetrahedron_of_triangle;  ///< the one behind each boundary triangle
  std::vector<int> twin_of_triangle;  ///< the same one seen from the touching body; -1: none there

  Eigen::Index node_count() const { return nodes.cols(); }
  Eigen::Index tetrahedron_count() const { return tetrahedra.cols(); }
  Eigen::Index triangle_count() const { return triangles.cols(); }
  Eigen::Index unknowns() const { return 3 * nodes.cols(); }
};

}  // namespace crossgrain
