// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/supports.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "solver/elements/face_triangles.h"
#include "solver/elements/shape_functions.h"
#include "solver/supports/determinate_holds.h"

namespace crossgrain {
namespace {

// Normals of the facets on either side of a smooth seam differ by the error of the mesh, real edges
// by more. Common practice, no source.
const double same_direction = std::cos(5.0 * M_PI / 180.0);

/// Directions that supports ask to hold, per node.
using WantedDirections = std::map<int, std::vector<Eigen::Vector3d>>;

/// Area-weighted normals at the nodes of one face, from the curved triangles there.
std::map<int, Eigen::Vector3d> nodal_normals(const TetrahedronMesh& mesh,
                                             const std::vector<int>& triangles) {
  const auto local = triangle_nodes();
  std::map<int, Eigen::Vector3d> normals;
  for (int t : triangles) {
    const auto positions = triangle_positions(mesh, t);
    for (int i = 0; i < 6; ++i) {
      const Eigen::Matrix<double, 3, 2> tangents =
          positions * triangle_local_gradients(local.col(i)).transpose();
      const Eigen::Vector3d area = 0.5 * tangents.col(0).cross(tangents.col(1));
      normals.try_emplace(mesh.triangles(i, t), Eigen::Vector3d::Zero()).first->second += area;
    }
  }
  return normals;
}

void want_normals(const TetrahedronMesh& mesh, const Support& support, WantedDirections& wanted) {
  // Face by face: at an edge between two faces each one's own normal is held.
  for (FaceId face : support.faces) {
    for (const auto& [node, area] :
         nodal_normals(mesh, triangles_on(mesh, {face}, support.name.c_str()))) {
      if (!(area.norm() > 0.0))
        throw std::invalid_argument("support '" + support.name + "': face " +
                                    std::to_string(number(face)) +
                                    " has no normal at one of its nodes; hold it in directions "
                                    "instead");
      wanted[node].push_back(area.normalized());
    }
  }
}

void want_directions(const TetrahedronMesh& mesh, const Support& support,
                     const std::vector<Eigen::Vector3d>& directions, WantedDirections& wanted) {
  for (int t : triangles_on(mesh, support.faces, support.name.c_str())) {
    for (int node : mesh.triangles.col(t)) {
      auto& at_node = wanted[node];
      at_node.insert(at_node.end(), directions.begin(), directions.end());
    }
  }
}

void want(const TetrahedronMesh& mesh, const Support& support, WantedDirections& wanted) {
  switch (support.hold) {
    case Hold::all:
      return want_directions(
          mesh, support,
          {Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitY(), Eigen::Vector3d::UnitZ()}, wanted);
    case Hold::direction:
      if (!(support.direction.norm() > 0.0) || !support.direction.allFinite())
        throw std::invalid_argument("support '" + support.name +
                                    "': its direction has no length; give three numbers, not all "
                                    "zero");
      return want_directions(mesh, support, {support.direction.normalized()}, wanted);
    case Hold::normal:
      return want_normals(mesh, support, wanted);
  }
}

/// Means of the directions that agree within the tolerance, either way along.
std::vector<Eigen::Vector3d> merged(const std::vector<Eigen::Vector3d>& directions) {
  std::vector<Eigen::Vector3d> sums;
  for (const auto& direction : directions) {
    bool found = false;
    for (auto& sum : sums) {
      const double cosine = sum.normalized().dot(direction);
      if (std::abs(cosine) < same_direction) continue;
      sum += std::copysign(1.0, cosine) * direction;
      found = true;
      break;
    }
    if (!found) sums.push_back(direction);
  }
  for (auto& sum : sums) sum.normalize();
  return sums;
}

NodeDirections orthonormal(const std::vector<Eigen::Vector3d>& directions) {
  const double smallest_remainder = std::sqrt(1.0 - same_direction * same_direction);
  NodeDirections held(3, 0);
  for (const auto& direction : directions) {
    Eigen::Vector3d remainder = direction;
    for (const auto& other : held.colwise()) remainder -= other.dot(direction) * other;
    if (remainder.norm() < smallest_remainder) continue;
    held.conservativeResize(3, held.cols() + 1);
    held.rightCols<1>() = remainder.normalized();
    if (held.cols() == 3) break;
  }
  return held;
}

}  // namespace

std::vector<NodeConstraint> constraints_of(const TetrahedronMesh& mesh,
                                           const std::vector<Support>& supports) {
  WantedDirections wanted;
  for (const auto& support : supports) want(mesh, support, wanted);
  std::vector<NodeConstraint> constraints;
  for (const auto& [node, directions] : wanted)
    constraints.push_back({node, orthonormal(merged(directions))});
  return constraints;
}

Eigen::MatrixXd free_rigid_motions(const TetrahedronMesh& mesh,
                                   const std::vector<NodeConstraint>& constraints) {
  const RigidMotions rigid = rigid_motions(mesh, constraints, {});
  std::vector<Eigen::Index> first_column;
  Eigen::Index count = 0;
  for (const auto& group : rigid.groups) {
    first_column.push_back(count);
    count += group.free.cols();
  }
  Eigen::MatrixXd motions = Eigen::MatrixXd::Zero(mesh.unknowns(), count);
  for (int i = 0; i < mesh.node_count(); ++i) {
    const int g = rigid.group_of(i);
    if (g < 0) continue;
    motions.block(3 * Eigen::Index{i}, first_column[g], 3, rigid.groups[g].free.cols()) =
        rigid.free_at(mesh, i);
  }
  // Groups do not overlap, so orthonormalising all columns does so within each group.
  if (count == 0) return motions;
  const Eigen::HouseholderQR<Eigen::MatrixXd> qr(motions);
  return qr.householderQ() * Eigen::MatrixXd::Identity(motions.rows(), count);
}

std::vector<int> connected_groups(const TetrahedronMesh& mesh) {
  std::vector<int> leader(mesh.node_count());
  std::iota(leader.begin(), leader.end(), 0);
  const auto find = [&](int node) {
    while (leader[node] != node) node = leader[node] = leader[leader[node]];
    return node;
  };
  std::vector<bool> used(mesh.node_count(), false);
  for (const auto& element : mesh.tetrahedra.colwise()) {
    for (int node : element) {
      used[node] = true;
      // The smaller number leads, so that groups are numbered in order of their first node.
      const int a = find(element[0]), b = find(node);
      leader[std::max(a, b)] = std::min(a, b);
    }
  }
  std::vector<int> group(mesh.node_count(), -1);
  int count = 0;
  for (int node = 0; node < mesh.node_count(); ++node) {
    if (!used[node]) continue;
    const int first = find(node);
    group[node] = first == node ? count++ : group[first];
  }
  return group;
}

}  // namespace crossgrain
