// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/supports/supports.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::verification {

/// Cells that grow from share 0 to 1: the corners of the i-th of `cells` lie at (i / cells)^power;
/// in between linear, for a quadratic element wants its mid-side nodes in the middle.
double graded(double share, int cells, double power);

/// Piece of a cylinder about z: xi runs from radius `inner` to `outer`, eta through `angle` [rad]
/// from the x axis, zeta from 0 to `height` [mm].
struct CylinderSector {
  double inner;
  double outer;
  double angle;
  double height;

  testing::BlockMap map() const;
  /// Where radius, share of the angle and height meet [mm].
  Eigen::Vector3d at(double radius, double share_of_angle, double z) const;
  /// The two cut planes slide in themselves.
  std::vector<Support> symmetry() const;
};

constexpr FaceId bore = testing::xi_low;
constexpr FaceId bottom = testing::zeta_low;
constexpr FaceId top = testing::zeta_high;

/// Quarter of a round plate about z, mid-plane at z = 0, rim at `radius`: a core and two ring
/// blocks. @param cells  along each edge of the core, across the ring, through the thickness.
struct QuarterPlate {
  double radius;
  double thickness;
  std::array<int, 3> cells;

  TetrahedronMesh mesh() const;
  static std::vector<FaceId> upper_faces();
  static std::vector<FaceId> rim();
  std::vector<Support> symmetry() const;
};

}  // namespace crossgrain::verification
