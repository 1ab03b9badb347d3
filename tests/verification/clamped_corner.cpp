// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/clamped_corner.h"

#include <cmath>
#include <numbers>

namespace crossgrain::verification {
namespace {

using Complex = std::complex<double>;
using Eigen::Vector3d;
using std::numbers::pi;

constexpr double alpha = pi / 2.0;

double root_of_williams(double kappa) {
  const auto rest = [&](double l) {
    return std::pow(std::sin(l * alpha), 2) -
           (std::pow(kappa + 1.0, 2) - 4.0 * l * l) / (4.0 * kappa);
  };
  double low = 0.5, high = 1.0;  // negative and positive
  for (int i = 0; i < 60; ++i) (rest(0.5 * (low + high)) < 0.0 ? low : high) = 0.5 * (low + high);
  return low;
}

}  // namespace

ClampedCornerField::ClampedCornerField(double E, double nu)
    : nu_(nu),
      shear_modulus_(E / (2.0 * (1.0 + nu))),
      kappa_(3.0 - 4.0 * nu),
      lambda_(root_of_williams(kappa_)) {
  // Free at the angle 0: conj(psi) = -phi - lambda conj(phi). Held at alpha:
  // kappa phi e^(i l alpha) - l conj(phi) e^(i (2 - l) alpha) - conj(psi) e^(-i l alpha) = 0.
  const auto left_over = [&](Complex phi) {
    const double l = lambda_;
    return kappa_ * phi * std::polar(1.0, l * alpha) -
           l * std::conj(phi) * std::polar(1.0, (2.0 - l) * alpha) +
           (phi + l * std::conj(phi)) * std::polar(1.0, -l * alpha);
  };
  // Linear in the parts of phi, and singular: a combination of both parts leaves nothing.
  const Complex of_real = left_over(1.0), of_imaginary = left_over({0.0, 1.0});
  const Complex null = {of_imaginary.real(), -of_real.real()};
  phi_ = null / std::abs(null);
  psi_ = -std::conj(phi_) - lambda_ * phi_;
}

Eigen::Matrix3d ClampedCornerField::stress(const Vector3d& at) const {
  const Complex z(at.x(), at.y());
  const Complex slope = lambda_ * std::pow(z, lambda_ - 1.0);
  const double sum = 4.0 * (phi_ * slope).real();
  const Complex difference =
      2.0 * (std::conj(z) * phi_ * (lambda_ - 1.0) * slope / z + psi_ * slope);
  const double xx = 0.5 * (sum - difference.real()), yy = 0.5 * (sum + difference.real());
  const double xy = 0.5 * difference.imag();
  Eigen::Matrix3d stress;
  stress << xx, xy, 0, xy, yy, 0, 0, 0, nu_ * (xx + yy);
  return stress;
}

Vector3d ClampedCornerField::displacement(const Vector3d& at) const {
  const Complex z(at.x(), at.y());
  const Complex power = std::pow(z, lambda_);
  const Complex slope = lambda_ * std::pow(z, lambda_ - 1.0);
  const Complex moved =
      (kappa_ * phi_ * power - z * std::conj(phi_ * slope) - std::conj(psi_ * power)) /
      (2.0 * shear_modulus_);
  return {moved.real(), moved.imag(), 0.0};
}

}  // namespace crossgrain::verification
