// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain::verification {

/// A thin plate |x| < a/2, |y| < b/2 with clamped edges under unit pressure, of unit bending
/// stiffness: Ritz's method with (1 - xi^2)^2 (1 - eta^2)^2 times even powers, which converges fast
/// because the deflection is smooth but for its corners.
/// Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, art. 82 (the method).
class ClampedPlate {
 public:
  ClampedPlate(double a, double b, double nu);

  double deflection() const;  ///< at the centre
  /// Moment per length that bends across y, positive where the pressed side is in compression.
  double moment_y(double x, double y) const;

 private:
  double a_, b_, nu_;
  Eigen::MatrixXd shares_;  ///< of the products of functions of xi (rows) and eta (columns)
};

}  // namespace crossgrain::verification
