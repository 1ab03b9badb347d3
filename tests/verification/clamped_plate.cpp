// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/clamped_plate.h"

#include <Eigen/QR>
#include <cmath>

#include "mesh/geometry/gauss_rule.h"

namespace crossgrain::verification {
namespace {

constexpr int count = 6;  // functions in each direction

/// The functions (1 - s^2)^2 s^2i at s, or their second derivatives.
Eigen::VectorXd functions(double s) {
  Eigen::VectorXd values(count);
  for (int i = 0; i < count; ++i) values[i] = std::pow(1.0 - s * s, 2) * std::pow(s, 2 * i);
  return values;
}

Eigen::VectorXd second_derivatives(double s) {
  const auto of_power = [s](int n) { return n < 2 ? 0.0 : n * (n - 1) * std::pow(s, n - 2); };
  Eigen::VectorXd values(count);
  for (int i = 0; i < count; ++i)
    values[i] = of_power(2 * i) - 2.0 * of_power(2 * i + 2) + of_power(2 * i + 4);
  return values;
}

template <typename Function>
Eigen::MatrixXd over_length(const Function& function) {
  // Polynomials of degree 28 at most: pieces of a rule of degree nine leave 1e-12.
  return integrate(-1.0, 1.0, 40, Eigen::MatrixXd(0.0 * function(0.0)), function);
}

}  // namespace

ClampedPlate::ClampedPlate(double a, double b, double nu) : a_(a), b_(b), nu_(nu) {
  const auto product = [](auto first, auto second) {
    return over_length([=](double s) { return Eigen::MatrixXd(first(s) * second(s).transpose()); });
  };
  const Eigen::MatrixXd plain = product(functions, functions);
  const Eigen::MatrixXd mixed = product(second_derivatives, functions);
  const Eigen::MatrixXd bent = product(second_derivatives, second_derivatives);
  const Eigen::VectorXd load = over_length([](double s) { return Eigen::MatrixXd(functions(s)); });
  // Energy: half the integral of (w_xx + w_yy)^2; with clamped edges the rest integrates to none.
  const double x2 = 4.0 / (a * a), y2 = 4.0 / (b * b);
  Eigen::MatrixXd stiffness(count * count, count * count);
  Eigen::VectorXd right(count * count);
  for (int j = 0; j < count; ++j)
    for (int i = 0; i < count; ++i) {
      right[i + count * j] = load[i] * load[j];
      for (int l = 0; l < count; ++l)
        for (int k = 0; k < count; ++k)
          stiffness(i + count * j, k + count * l) =
              x2 * x2 * bent(i, k) * plain(j, l) + y2 * y2 * plain(i, k) * bent(j, l) +
              x2 * y2 * (mixed(i, k) * mixed(l, j) + mixed(k, i) * mixed(j, l));
    }
  shares_ = stiffness.colPivHouseholderQr().solve(right).reshaped(count, count);
}

double ClampedPlate::deflection() const { return functions(0.0).dot(shares_ * functions(0.0)); }

double ClampedPlate::moment_y(double x, double y) const {
  const double xi = 2.0 * x / a_, eta = 2.0 * y / b_;
  const double w_xx = 4.0 / (a_ * a_) * second_derivatives(xi).dot(shares_ * functions(eta));
  const double w_yy = 4.0 / (b_ * b_) * functions(xi).dot(shares_ * second_derivatives(eta));
  return -(w_yy + nu_ * w_xx);
}

}  // namespace crossgrain::verification
