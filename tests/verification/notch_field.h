// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain::verification {

/// The symmetric singular field of plane strain at a right-angled inner corner along z, free of
/// traction on both sides of it, of unit amplitude: the first term of Williams's series. The corner
/// lies on the z axis, what is missing at x < 0, y < 0.
/// Source: M. L. Williams, J. Appl. Mech. 19 (1952) 526-528; as written in Szabo and Babuska,
/// Finite Element Analysis (1991), chapter 10 (from memory; the test shows that sides are free).
class NotchField {
 public:
  NotchField(double E, double nu) : E_(E), nu_(nu) {}

  static constexpr double lambda = 0.544483736782464;
  static constexpr double Q = 0.543075578836737;

  Eigen::Matrix3d stress(const Eigen::Vector3d& at) const;        ///< [MPa]
  Eigen::Vector3d displacement(const Eigen::Vector3d& at) const;  ///< [mm]

  /// Strain energy of the L-shaped prism |x|, |y| < a of thickness t less the missing square, by
  /// the work on its outer sides [N mm].
  double energy(double a, double t) const;

 private:
  double E_, nu_;
};

}  // namespace crossgrain::verification
