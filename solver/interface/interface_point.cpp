// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/interface_point.h"

#include <Eigen/Geometry>

namespace crossgrain {
namespace {

/// cross(a) b = a x b.
Eigen::Matrix3d cross(const Eigen::Vector3d& a) {
  Eigen::Matrix3d matrix;
  matrix << 0.0, -a.z(), a.y(), a.z(), 0.0, -a.x(), -a.y(), a.x(), 0.0;
  return matrix;
}

/// The curl along a face tells twice the rotation about its normal, once the others.
Eigen::Matrix3d rotation_of_curl(const Eigen::Vector3d& normal) {
  return Eigen::Matrix3d::Identity() - 0.5 * normal * normal.transpose();
}

}  // namespace

Eigen::Vector3d rotation(const TetrahedronMesh& mesh, const InterfaceSide& side,
                         const Eigen::VectorXd& u) {
  Eigen::Vector3d curl = Eigen::Vector3d::Zero();
  for (int a = 0; a < 6; ++a) {
    const Eigen::Index node = mesh.triangles(a, side.triangle);
    curl += side.gradient.col(a).cross(u.segment<3>(3 * node));
  }
  return rotation_of_curl(side.normal) * curl;
}

Eigen::Vector3d jump(const TetrahedronMesh& mesh, const InterfacePoint& point,
                     const Eigen::VectorXd& u) {
  Eigen::Vector3d apart = Eigen::Vector3d::Zero(), turned = apart;
  for (const int side : {0, 1}) {
    const InterfaceSide& on = point.sides[side];
    for (int a = 0; a < 6; ++a) {
      const Eigen::Index node = mesh.triangles(a, on.triangle);
      apart += (side == 0 ? -1.0 : 1.0) * on.shape[a] * u.segment<3>(3 * node);
    }
    turned += 0.5 * rotation(mesh, on, u);
  }
  return apart - turned.cross(point.across);
}

std::array<Eigen::Matrix3d, 12> jump_derivatives(const InterfacePoint& point) {
  std::array<Eigen::Matrix3d, 12> derivatives;
  for (const int side : {0, 1}) {
    const InterfaceSide& on = point.sides[side];
    const Eigen::Matrix3d turn = 0.5 * cross(point.across) * rotation_of_curl(on.normal);
    const double sign = side == 0 ? -1.0 : 1.0;
    for (int a = 0; a < 6; ++a)
      derivatives[6 * side + a] =
          sign * on.shape[a] * Eigen::Matrix3d::Identity() + turn * cross(on.gradient.col(a));
  }
  return derivatives;
}

Eigen::Matrix<double, 3, 12> work_on_jump(const InterfacePoint& point,
                                          const Eigen::Vector3d& traction) {
  Eigen::Matrix<double, 3, 12> work;
  const Eigen::Vector3d moment = 0.5 * point.across.cross(traction);
  for (const int side : {0, 1}) {
    const InterfaceSide& on = point.sides[side];
    const Eigen::Vector3d turning = rotation_of_curl(on.normal) * moment;
    const double sign = side == 0 ? -1.0 : 1.0;
    for (int a = 0; a < 6; ++a)
      work.col(6 * side + a) = sign * on.shape[a] * traction + on.gradient.col(a).cross(turning);
  }
  return work;
}

}  // namespace crossgrain
