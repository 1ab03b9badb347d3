// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/notch_field.h"

#include <cmath>
#include <numbers>

namespace crossgrain::verification {
namespace {

using Eigen::Vector3d;

/// From the axes of the field, x along its line of symmetry, to those of the prism.
Eigen::Matrix3d turn() {
  const double c = std::sqrt(0.5);
  Eigen::Matrix3d turned;
  turned << c, -c, 0, c, c, 0, 0, 0, 1;
  return turned;
}

struct Polar {
  double r, angle;
};

Polar polar(const Vector3d& at) {
  const Vector3d own = turn().transpose() * at;
  return {own.head<2>().norm(), std::atan2(own.y(), own.x())};
}

}  // namespace

Eigen::Matrix3d NotchField::stress(const Vector3d& at) const {
  const auto [r, angle] = polar(at);
  const double l = lambda, one = (l - 1) * angle, three = (l - 3) * angle;
  const double size = l * std::pow(r, l - 1);
  const double xx = size * ((2 - Q * (l + 1)) * std::cos(one) - (l - 1) * std::cos(three));
  const double yy = size * ((2 + Q * (l + 1)) * std::cos(one) + (l - 1) * std::cos(three));
  const double xy = size * ((l - 1) * std::sin(three) + Q * (l + 1) * std::sin(one));
  Eigen::Matrix3d own;
  own << xx, xy, 0, xy, yy, 0, 0, 0, nu_ * (xx + yy);
  const Eigen::Matrix3d turned = turn();
  return turned * own * turned.transpose();
}

Vector3d NotchField::displacement(const Vector3d& at) const {
  const auto [r, angle] = polar(at);
  const double l = lambda, kappa = 3 - 4 * nu_, shear_modulus = E_ / (2 * (1 + nu_));
  const Vector3d own((kappa - Q * (l + 1)) * std::cos(l * angle) - l * std::cos((l - 2) * angle),
                     (kappa + Q * (l + 1)) * std::sin(l * angle) + l * std::sin((l - 2) * angle),
                     0);
  return turn() * own * std::pow(r, l) / (2 * shear_modulus);
}

double NotchField::energy(double a, double t) const {
  // The field is smooth along the outer sides, and free of traction along those of the corner.
  constexpr int pieces = 2000;
  const auto work = [&](const Vector3d& from, const Vector3d& to, const Vector3d& normal) {
    double sum = 0.0;
    for (int i = 0; i < pieces; ++i) {
      const Vector3d at = from + (i + 0.5) / pieces * (to - from);
      sum += (stress(at) * normal).dot(displacement(at));
    }
    return 0.5 * t * sum * (to - from).norm() / pieces;
  };
  return work({a, -a, 0}, {a, a, 0}, Vector3d::UnitX()) +
         work({-a, a, 0}, {a, a, 0}, Vector3d::UnitY()) +
         work({-a, 0, 0}, {-a, a, 0}, -Vector3d::UnitX()) +
         work({0, -a, 0}, {a, -a, 0}, -Vector3d::UnitY());
}

}  // namespace crossgrain::verification
