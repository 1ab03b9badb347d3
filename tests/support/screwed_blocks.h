// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/frozen_joint.h"
#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {

/// Two blocks with a flat ring of rubber's softness between them that stays pressed, tightened by a
/// screw from the upper one's top to the lower one's bottom. Nothing holds them.
struct ScrewedBlocks {
  static constexpr double width = 10.0, height = 8.0;     ///< of either [mm]
  static constexpr double preload = 300.0, pull = 100.0;  ///< [N]

  TetrahedronMesh mesh = two_bodies(box_mesh({2, 2, 2}, {width, width, height}), upper());
  Joint joint;
  Eigen::VectorXd pulled_apart;  ///< at top and bottom

  /// @param stiffens  whether the rubber's slope follows its squeeze.
  explicit ScrewedBlocks(const MaterialField& field, bool stiffens = false) {
    Bedding rubber{20.0, 1.0};
    rubber.stiffens = stiffens;
    rubber.shear_modulus = 7.0;
    joint.pairs = {pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, rubber, 0.1)};
    joint.screws = {{"screw", area_motion(mesh, {of_second(zeta_high)}, {}, "head"),
                     area_motion(mesh, {zeta_low}, {}, "thread"), Eigen::Vector3d::UnitZ(), 900.0,
                     50.0}};
    const double traction = pull / (width * width);
    pulled_apart = traction_load(mesh, {of_second(zeta_high)},
                                 [&](const auto&) { return Eigen::Vector3d(0, 0, traction); }) +
                   traction_load(mesh, {zeta_low},
                                 [&](const auto&) { return Eigen::Vector3d(0, 0, -traction); });
  }

  JointLoad tightened() const {
    return {Eigen::VectorXd::Zero(mesh.unknowns()), {ScrewCommand{true, preload}}, {}, {}};
  }
  JointLoad working(const JointSolution& tight) const {
    return {pulled_apart, {locked(tight.screws[0])}, {}, {}};
  }

  static MaterialField printed(const TetrahedronMesh& mesh, const SolidMaterial& material,
                               const Eigen::Vector3d& lower, const Eigen::Vector3d& upper) {
    return uniform_field(mesh, {material, material}, {frame_along(lower), frame_along(upper)});
  }

 private:
  static TetrahedronMesh upper() {
    TetrahedronMesh block = box_mesh({3, 2, 2}, {width, width, height});
    block.nodes.row(2).array() += height;
    return block;
  }
};

}  // namespace crossgrain::testing
