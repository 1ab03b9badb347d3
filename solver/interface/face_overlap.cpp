// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/face_overlap.h"

#include <Eigen/Geometry>
#include <set>
#include <sstream>
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/face_triangles.h"
#include "solver/elements/quadrature.h"
#include "solver/interface/piece_overlap.h"
#include "solver/location/box_tree.h"

namespace crossgrain {
namespace {

Eigen::AlignedBox3d box_of(const FlatPiece& piece, double reach) {
  Eigen::AlignedBox3d box;
  for (int c = 0; c < 3; ++c) box.extend(piece.corners.col(c));
  const Eigen::Vector3d margin = Eigen::Vector3d::Constant(reach + 1e-9 * box.diagonal().norm());
  box.extend(box.max() + margin);
  box.extend(box.min() - margin);
  return box;
}

double area_of_triangles(const TetrahedronMesh& mesh, const std::vector<int>& triangles) {
  const auto& rule = surface_rule();
  double area = 0.0;
  for (int triangle : triangles) {
    const auto nodes = triangle_positions(mesh, triangle);
    for (Eigen::Index q = 0; q < rule.size(); ++q) {
      const Eigen::Matrix<double, 3, 2> tangents =
          nodes * triangle_local_gradients(rule.points.col(q)).transpose();
      area += rule.weights[q] * tangents.col(0).cross(tangents.col(1)).norm();
    }
  }
  return area;
}

void require_apart(const TetrahedronMesh& mesh, const std::vector<int>& first,
                   const std::vector<int>& second) {
  std::set<int> nodes;
  for (int triangle : first)
    for (int node : mesh.triangles.col(triangle)) nodes.insert(node);
  for (int triangle : second)
    for (int node : mesh.triangles.col(triangle))
      if (nodes.contains(node)) {
        std::ostringstream message;
        message
            << "two faces of an interface share the node at ("
            << mesh.nodes.col(node).transpose().format(Eigen::IOFormat(6, 0, ", "))
            << ") mm: their bodies are meshed as one; keep them apart to let them slide or open";
        throw std::invalid_argument(message.str());
      }
}

}  // namespace

FaceOverlap overlap_faces(const TetrahedronMesh& mesh, const std::vector<int>& first,
                          const std::vector<int>& second, double reach) {
  if (!(reach >= 0.0)) throw std::invalid_argument("the reach of an interface is negative");
  require_apart(mesh, first, second);
  const auto mine = flat_pieces(mesh, first);
  const auto others = flat_pieces(mesh, second);
  std::vector<Eigen::AlignedBox3d> boxes;
  boxes.reserve(others.size());
  for (const auto& piece : others) boxes.push_back(box_of(piece, reach));
  const BoxTree tree(std::move(boxes));
  FaceOverlap overlap;
  overlap.face_area = {area_of_triangles(mesh, first), area_of_triangles(mesh, second)};
  for (const auto& piece : mine) {
    for (int other : tree.meeting(box_of(piece, 0.0)))
      overlap_pieces(mesh, piece, others[static_cast<std::size_t>(other)], reach,
                     [&](const InterfacePoint& point) {
                       overlap.area += point.area;
                       overlap.points.push_back(point);
                     });
  }
  if (overlap.points.empty()) {
    std::ostringstream message;
    message << "the faces of an interface lie nowhere opposite each other within " << reach
            << " mm: choose the pair that touches, or move one of the bodies";
    throw std::invalid_argument(message.str());
  }
  return overlap;
}

}  // namespace crossgrain
