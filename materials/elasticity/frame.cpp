// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/frame.h"

#include <Eigen/Geometry>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

Eigen::Vector3d unit(const Eigen::Vector3d& direction, const char* what) {
  const double length = direction.stableNorm();
  if (length > 0.0 && std::isfinite(length)) return direction / length;
  std::ostringstream message;
  message << what << " (" << direction.transpose()
          << ") has no usable length; give three finite components, not all zero";
  throw std::invalid_argument(message.str());
}

void require_proper_rotation(const Frame& R) {
  const double distortion = (R.transpose() * R - Frame::Identity()).cwiseAbs().maxCoeff();
  if (distortion <= 1e-10 && R.determinant() > 0.0) return;
  std::ostringstream message;
  message << "frame is not a proper rotation: R^T R differs from the identity by " << distortion
          << ", determinant " << R.determinant();
  throw std::invalid_argument(message.str());
}

}  // namespace

Frame frame_along(const Eigen::Vector3d& build_direction) {
  const Eigen::Vector3d build = unit(build_direction, "build direction");
  // The global axis most nearly across the build direction: a build along z gives the identity.
  Eigen::Index across = 0;
  build.cwiseAbs().minCoeff(&across);
  return frame_along(build, Eigen::Vector3d::Unit(across));
}

Frame frame_along(const Eigen::Vector3d& build_direction, const Eigen::Vector3d& bead_direction) {
  const Eigen::Vector3d build = unit(build_direction, "build direction");
  const Eigen::Vector3d wish = unit(bead_direction, "bead direction");
  const Eigen::Vector3d in_layer = wish - wish.dot(build) * build;
  if (!(in_layer.norm() > 1e-6)) {
    std::ostringstream message;
    message << "bead direction (" << bead_direction.transpose()
            << ") is parallel to the build direction (" << build_direction.transpose()
            << "); a bead lies in the layer, across the build direction";
    throw std::invalid_argument(message.str());
  }
  // Twice, because one subtraction leaves a residue of rounding when the two are nearly parallel.
  const Eigen::Vector3d bead =
      (in_layer.normalized() - in_layer.normalized().dot(build) * build).normalized();
  Frame frame;
  frame << bead, build.cross(bead), build;
  return frame;
}

Matrix6d stress_rotation(const Frame& R) {
  Matrix6d T;
  for (int row = 0; row < 6; ++row) {
    const auto [i, j] = index_pairs[row];
    for (int column = 0; column < 6; ++column) {
      const auto [k, l] = index_pairs[column];
      T(row, column) = R(i, k) * R(j, l) + (k == l ? 0.0 : R(i, l) * R(j, k));
    }
  }
  return T;
}

Matrix6d rotate_stiffness(const Matrix6d& C, const Frame& frame) {
  require_proper_rotation(frame);
  const Matrix6d T = stress_rotation(frame);
  const Matrix6d rotated = T * C * T.transpose();
  return 0.5 * (rotated + rotated.transpose());
}

Vector6d stress_in_material_axes(const Vector6d& stress, const Frame& frame) {
  Eigen::Matrix3d global;
  global << stress[0], stress[5], stress[4],  //
      stress[5], stress[1], stress[3],        //
      stress[4], stress[3], stress[2];
  const Eigen::Matrix3d s = frame.transpose() * global * frame;
  return Vector6d(s(0, 0), s(1, 1), s(2, 2), s(1, 2), s(0, 2), s(0, 1));
}

Vector6d thermal_strain_per_kelvin(const Eigen::Vector3d& expansion, const Frame& frame) {
  const Eigen::Matrix3d e = frame * expansion.asDiagonal() * frame.transpose();
  return Vector6d(e(0, 0), e(1, 1), e(2, 2), 2.0 * e(1, 2), 2.0 * e(0, 2), 2.0 * e(0, 1));
}

}  // namespace crossgrain
