// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>

#include "solver/elements/material_field.h"
#include "solver/iteration/additions.h"
#include "solver/supports/supports.h"
#include "tests/solver/example_materials.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::testing::two_plates {

constexpr double length = 30.0, thickness = 5.0;  // [mm]

/// Two square plates, one upon the other, their grids unlike; the lower one's underside is held.
struct TwoPlates {
  int cells_below, cells_above;
  double element;  ///< length of one below [mm]
  TetrahedronMesh mesh;
  MaterialField field;
  std::vector<NodeConstraint> held;

  explicit TwoPlates(int fineness)
      : cells_below(2 * fineness),
        cells_above(2 * fineness - 1),
        element(length / cells_below),
        mesh(stacked(fineness)),
        field(uniform_field(mesh, {plain_solid(), plain_solid()},
                            {Frame::Identity(), Frame::Identity()})),
        held(constraints_of(mesh, {{"underside", {zeta_low}, Hold::all, {}}})) {}

  /// Springs k between the plates, per area, at every node of the lower face: k h / E is given.
  /// @param along  one direction; none: all.
  StiffnessAdditions bedding(double k_h_over_E, const Eigen::Vector3d& along = {0, 0, 0}) const {
    const Eigen::Matrix3d direction = along.norm() > 0.0
                                          ? Eigen::Matrix3d(along * along.transpose())
                                          : Eigen::Matrix3d(Eigen::Matrix3d::Identity());
    const auto below = nodes_on(mesh, {zeta_high});
    const double area = length * length / static_cast<double>(below.size());
    const double stiffness = k_h_over_E * 2000.0 / element * area;
    const auto above = lattice_above();
    StiffnessAdditions additions;
    for (const int node : below) {
      // A point's jump: its own motion less that of the four lattice nodes round it above.
      std::vector<std::pair<int, double>> jump{{node, -1.0}};
      const double step = length / (2 * cells_above);
      const double x = mesh.nodes(0, node) / step, y = mesh.nodes(1, node) / step;
      const int i = std::min(static_cast<int>(x), 2 * cells_above - 1),
                j = std::min(static_cast<int>(y), 2 * cells_above - 1);
      for (int p = 0; p < 2; ++p)
        for (int q = 0; q < 2; ++q) {
          const double weight = (p == 0 ? 1.0 - (x - i) : x - i) * (q == 0 ? 1.0 - (y - j) : y - j);
          jump.emplace_back(above.at({i + p, j + q}), weight);
        }
      for (std::size_t a = 0; a < jump.size(); ++a)
        for (std::size_t b = a; b < jump.size(); ++b)
          additions.blocks.push_back({jump[a].first, jump[b].first,
                                      stiffness * jump[a].second * jump[b].second * direction});
    }
    return additions;
  }

  /// Set to zero what a bedding has round points of the lower face.
  void open_where(StiffnessAdditions& bedding,
                  const std::function<bool(const Eigen::Vector3d&)>& open) const {
    constexpr std::size_t blocks_per_point = 15;
    for (std::size_t k = 0; k < bedding.blocks.size(); ++k) {
      const int node = bedding.blocks[k / blocks_per_point * blocks_per_point].i;
      if (open(mesh.nodes.col(node))) bedding.blocks[k].stiffness.setZero();
    }
  }

  /// Three springs a screw between the mean motions of disks of 4 mm round its axis: on top of the
  /// upper plate and within the lower one's upper face.
  /// @param stiffness  along its axis; across a tenth [N/mm].
  StiffnessAdditions eight_screws(double stiffness) const {
    StiffnessAdditions additions;
    for (const auto& at : {Eigen::Vector2d(5, 5), Eigen::Vector2d(15, 5), Eigen::Vector2d(25, 5),
                           Eigen::Vector2d(5, 15), Eigen::Vector2d(25, 15), Eigen::Vector2d(5, 25),
                           Eigen::Vector2d(15, 25), Eigen::Vector2d(25, 25)}) {
      const auto head = disk(FaceId{number(zeta_high) + 10}, at), seat = disk(zeta_high, at);
      for (int axis = 0; axis < 3; ++axis) {
        StiffnessAdditions::Spring spring{{}, axis == 2 ? stiffness : 0.1 * stiffness};
        for (const int node : head)
          spring.shares.push_back(
              {node, Eigen::Vector3d::Unit(axis) / static_cast<double>(head.size())});
        for (const int node : seat)
          spring.shares.push_back(
              {node, -Eigen::Vector3d::Unit(axis) / static_cast<double>(seat.size())});
        additions.springs.push_back(spring);
      }
    }
    return additions;
  }

  /// A pressure on top whose mean lies off the middle [N].
  Eigen::VectorXd bending() const {
    Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
    const auto top = nodes_on(mesh, {FaceId{number(zeta_high) + 10}});
    for (const int node : top)
      load[3 * node + 2] = -(100.0 + 5.0 * mesh.nodes(0, node)) / static_cast<double>(top.size());
    return load;
  }
  Eigen::VectorXd push(const Eigen::Vector3d& force) const {
    Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
    load.segment<3>(3 * nearest_node(mesh, {15, 15, 2 * thickness})) = force;
    return load;
  }

 private:
  TetrahedronMesh stacked(int fineness) const {
    const int layers = std::max(1, fineness / 3);
    const Eigen::Vector3d size(length, length, thickness);
    TetrahedronMesh above = box_mesh({cells_above, cells_above, layers}, size);
    above.nodes.row(2).array() += thickness;
    TetrahedronMesh both = joined(box_mesh({cells_below, cells_below, layers}, size), above, 10);
    const auto lower = both.tetrahedron_count() - above.tetrahedron_count();
    for (Eigen::Index t = 0; t < both.tetrahedron_count(); ++t)
      both.body_of_tetrahedron[t] = BodyId{t < lower ? 1 : 2};
    return both;
  }

  /// Nodes of the upper plate's underside by their places in the grid of half cells.
  std::map<std::array<int, 2>, int> lattice_above() const {
    std::map<std::array<int, 2>, int> lattice;
    const double step = length / (2 * cells_above);
    for (const int node : nodes_on(mesh, {FaceId{number(zeta_low) + 10}}))
      lattice[{static_cast<int>(std::lround(mesh.nodes(0, node) / step)),
               static_cast<int>(std::lround(mesh.nodes(1, node) / step))}] = node;
    return lattice;
  }

  std::vector<int> disk(FaceId face, const Eigen::Vector2d& at) const {
    std::vector<int> nodes;
    for (const int node : nodes_on(mesh, {face}))
      if ((mesh.nodes.col(node).head<2>() - at).norm() <= 4.0) nodes.push_back(node);
    return nodes;
  }
};

}  // namespace crossgrain::testing::two_plates
