// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/flat_pieces.h"

#include <Eigen/Geometry>
#include <array>

#include "solver/elements/face_triangles.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

// Round-off of a straight edge's middle, as a share of the edge.
constexpr double straight = 1e-9;

using Corners = std::array<int, 3>;
const std::vector<Corners> whole{{0, 1, 2}};
const std::vector<Corners> quarters{{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}};

bool is_straight(const Eigen::Matrix<double, 3, 6>& nodes) {
  for (int e = 0; e < 3; ++e) {
    const auto [i, j] = edges_of_triangle[e];
    const Eigen::Vector3d bow = nodes.col(3 + e) - 0.5 * (nodes.col(i) + nodes.col(j));
    if (!(bow.norm() <= straight * (nodes.col(i) - nodes.col(j)).norm())) return false;
  }
  return true;
}

}  // namespace

std::vector<FlatPiece> flat_pieces(const TetrahedronMesh& mesh, const std::vector<int>& triangles) {
  const auto local = triangle_nodes();
  std::vector<FlatPiece> pieces;
  for (int triangle : triangles) {
    const auto nodes = triangle_positions(mesh, triangle);
    for (const auto& corners : is_straight(nodes) ? whole : quarters) {
      FlatPiece piece;
      piece.triangle = triangle;
      for (int c = 0; c < 3; ++c) {
        piece.corners.col(c) = nodes.col(corners[c]);
        piece.local.col(c) = local.col(corners[c]);
      }
      const Eigen::Vector3d area = (piece.corners.col(1) - piece.corners.col(0))
                                       .cross(piece.corners.col(2) - piece.corners.col(0));
      if (!(area.norm() > 0.0)) continue;
      piece.normal = area.normalized();
      pieces.push_back(piece);
    }
  }
  return pieces;
}

}  // namespace crossgrain
