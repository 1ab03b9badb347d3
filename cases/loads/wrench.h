// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Geometry>

#include "solver/loads/loads.h"

namespace crossgrain {

/// A force and its moment about the origin: what forces on a rigid body add up to.
struct Wrench {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();   ///< [N]
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< about the origin [N mm]

  Wrench& operator+=(const Wrench& other) {
    force += other.force;
    moment += other.moment;
    return *this;
  }
  Wrench operator-() const { return {-force, -moment}; }
  friend Wrench operator*(double scale, const Wrench& w) {
    return {scale * w.force, scale * w.moment};
  }
};

/// A force along a line through `point`.
inline Wrench force_through(const Eigen::Vector3d& point, const Eigen::Vector3d& force) {
  return {force, point.cross(force)};
}

/// Nodal forces on faces that are statically equivalent to a wrench.
/// @throws std::invalid_argument as spread_force does.
Eigen::VectorXd spread_wrench(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const Wrench& wrench, const ScalarOfPosition& weight = {});

}  // namespace crossgrain
