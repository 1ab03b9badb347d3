// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/frozen_joint.h"
#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {

/// Turned inside out at a point: the element's corners change places so that it keeps its volume.
inline TetrahedronMesh inverted(TetrahedronMesh mesh, const Eigen::Vector3d& through) {
  mesh.nodes = (-mesh.nodes).colwise() + 2.0 * through;
  mesh.tetrahedra.row(0).swap(mesh.tetrahedra.row(1));
  mesh.tetrahedra.row(5).swap(mesh.tetrahedra.row(6));
  mesh.tetrahedra.row(7).swap(mesh.tetrahedra.row(8));
  mesh.triangles.row(0).swap(mesh.triangles.row(1));
  mesh.triangles.row(4).swap(mesh.triangles.row(5));
  return mesh;
}

/// Two blocks, each the other's image in the point between them, with rubber between that stays
/// pressed; tightened by a screw from the upper one's top to the lower one's bottom. Nothing holds
/// them.
struct ScrewedBlocks {
  static constexpr double width = 10.0, height = 8.0;     ///< of either [mm]
  static constexpr double preload = 300.0, pull = 100.0;  ///< [N]

  TetrahedronMesh mesh = both();
  Joint joint;
  Eigen::VectorXd pulled_apart;  ///< at top and bottom

  /// @param stiffens  whether the rubber's slope follows its squeeze.
  explicit ScrewedBlocks(const MaterialField& field, bool stiffens = false) {
    Bedding rubber{20.0, 1.0};
    rubber.stiffens = stiffens;
    rubber.shear_modulus = 7.0;
    joint.pairs = {pair_between(mesh, field, {zeta_high}, {of_second(zeta_high)}, rubber, 0.1)};
    joint.screws = {{"screw", area_motion(mesh, {of_second(zeta_low)}, {}, "head"),
                     area_motion(mesh, {zeta_low}, {}, "thread"), Eigen::Vector3d::UnitZ(), 900.0,
                     50.0}};
    const Eigen::Vector3d traction(0.0, 0.0, pull / (width * width));
    pulled_apart =
        traction_load(mesh, {of_second(zeta_low)}, [&](const auto&) { return traction; }) -
        traction_load(mesh, {zeta_low}, [&](const auto&) { return traction; });
  }

  JointLoad tightened() const {
    return {Eigen::VectorXd::Zero(mesh.unknowns()), {ScrewCommand{true, preload}}, {}, {}};
  }
  JointLoad working(const JointSolution& tight) const {
    return {pulled_apart, {locked(tight.screws[0])}, {}, {}};
  }

  static TetrahedronMesh both() {
    const TetrahedronMesh lower = box_mesh({2, 2, 2}, {width, width, height});
    return two_bodies(lower, inverted(lower, {0.5 * width, 0.5 * width, height}));
  }
  static MaterialField printed(const SolidMaterial& material, const Eigen::Vector3d& lower,
                               const Eigen::Vector3d& upper) {
    return uniform_field(both(), {material, material}, {frame_along(lower), frame_along(upper)});
  }
};

}  // namespace crossgrain::testing
