// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/stiffness_polynomial.h"

#include <cmath>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

/// Place of n1^a n2^b n3^c among the monomials: a falls from 4, then b from what a leaves.
int place_of(int i, int j, int k, int l) {
  std::array<int, 3> exponent{};
  for (const int component : {i, j, k, l}) ++exponent[component];
  const int without_first = 4 - exponent[0];
  return without_first * (without_first + 1) / 2 + exponent[2];
}

void require_isotropic_in_layers(const OrthotropicConstants& c) {
  const auto equal = [](double a, double b) { return std::abs(a - b) <= 1e-9 * std::abs(b); };
  if (equal(c.E_1, c.E_2) && equal(c.nu_13, c.nu_23) && equal(c.G_13, c.G_23) &&
      equal(c.G_12, c.E_1 / (2.0 * (1.0 + c.nu_12))))
    return;
  std::ostringstream message;
  message << "elastic constants: not isotropic in the layers: E_1 = " << c.E_1
          << ", E_2 = " << c.E_2 << ", G_13 = " << c.G_13 << ", G_23 = " << c.G_23
          << ", G_12 = " << c.G_12 << " MPa, nu_12 = " << c.nu_12 << ", nu_13 = " << c.nu_13
          << ", nu_23 = " << c.nu_23;
  throw std::invalid_argument(message.str());
}

class Sum {
 public:
  /// One entry of all coefficients grows by terms of degree 0, 2 and 4; |n|^2 = n_a n_a fills up.
  void add(int row, int column, double factor) {
    for (int a = 0; a < 3; ++a) add(row, column, factor, a, a);
  }
  void add(int row, int column, double factor, int i, int j) {
    for (int a = 0; a < 3; ++a) add(row, column, factor, i, j, a, a);
  }
  void add(int row, int column, double factor, int i, int j, int k, int l) {
    sum_.coefficients[place_of(i, j, k, l)](row, column) += factor;
  }
  const StiffnessPolynomial& result() const { return sum_; }

  Sum() { sum_.coefficients.fill(Matrix6d::Zero()); }

 private:
  StiffnessPolynomial sum_;
};

}  // namespace

DirectionMonomials direction_monomials(const Eigen::Vector3d& direction) {
  const double length = direction.stableNorm();
  if (!(length > 0.0) || !std::isfinite(length)) {
    std::ostringstream message;
    message << "build direction (" << direction.transpose()
            << ") has no usable length; give three finite components, not all zero";
    throw std::invalid_argument(message.str());
  }
  const Eigen::Vector3d n = direction / length;
  DirectionMonomials monomials;
  for (int i = 0; i < 3; ++i)
    for (int j = i; j < 3; ++j)
      for (int k = j; k < 3; ++k)
        for (int l = k; l < 3; ++l) monomials[place_of(i, j, k, l)] = n[i] * n[j] * n[k] * n[l];
  return monomials;
}

DirectionMonomials constant_as_monomials() {
  DirectionMonomials counts = DirectionMonomials::Zero();
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) ++counts[place_of(i, i, j, j)];
  return counts;
}

Matrix6d StiffnessPolynomial::along(const Eigen::Vector3d& direction) const {
  const auto monomials = direction_monomials(direction);
  Matrix6d sum = Matrix6d::Zero();
  for (int m = 0; m < direction_monomial_count; ++m) sum += monomials[m] * coefficients[m];
  return sum;
}

StiffnessPolynomial stiffness_polynomial(const OrthotropicConstants& constants) {
  require_isotropic_in_layers(constants);
  const Matrix6d C = stiffness(constants);
  const double lambda = C(0, 1), mu_T = C(5, 5), a = C(0, 2) - C(0, 1);
  const double more_shear = C(3, 3) - C(5, 5);
  const double b = C(2, 2) - C(0, 0) - 2.0 * a - 4.0 * more_shear;
  Sum sum;
  for (int row = 0; row < 6; ++row)
    for (int column = 0; column < 6; ++column) {
      const auto [i, j] = index_pairs[row];
      const auto [k, l] = index_pairs[column];
      sum.add(row, column,
              (i == j && k == l ? lambda : 0.0) + ((i == k && j == l) + (i == l && j == k)) * mu_T);
      if (i == j) sum.add(row, column, a, k, l);
      if (k == l) sum.add(row, column, a, i, j);
      if (i == k) sum.add(row, column, more_shear, j, l);
      if (i == l) sum.add(row, column, more_shear, j, k);
      if (j == k) sum.add(row, column, more_shear, i, l);
      if (j == l) sum.add(row, column, more_shear, i, k);
      sum.add(row, column, b, i, j, k, l);
    }
  return sum.result();
}

StiffnessPolynomial fixed_stiffness(const Matrix6d& C) {
  const DirectionMonomials counts = constant_as_monomials();
  StiffnessPolynomial fixed;
  for (int m = 0; m < direction_monomial_count; ++m) fixed.coefficients[m] = counts[m] * C;
  return fixed;
}

}  // namespace crossgrain
