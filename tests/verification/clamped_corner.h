// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <complex>

namespace crossgrain::verification {

/// The singular field of plane strain at the rim of a clamp: a right-angled corner along z between
/// the face x = 0, which is held, and the face y = 0, which is free, material at x > 0, y > 0. Of
/// unit amplitude: the first term of Williams's series, in Kolosov's form with phi and psi going as
/// z^lambda.
/// Source: M. L. Williams, J. Appl. Mech. 19 (1952) 526-528, clamped-free; N. I. Muskhelishvili,
/// Some Basic Problems of the Mathematical Theory of Elasticity (from memory; the test shows that
/// one side is held and the other free).
class ClampedCornerField {
 public:
  ClampedCornerField(double E, double nu);

  /// Of sin^2(lambda alpha) = ((kappa + 1)^2 - 4 lambda^2 sin^2 alpha) / (4 kappa), alpha = pi / 2.
  double lambda() const { return lambda_; }
  Eigen::Matrix3d stress(const Eigen::Vector3d& at) const;        ///< [MPa]
  Eigen::Vector3d displacement(const Eigen::Vector3d& at) const;  ///< [mm]

 private:
  double nu_, shear_modulus_, kappa_, lambda_;
  std::complex<double> phi_, psi_;  // coefficients of z^lambda
};

}  // namespace crossgrain::verification
