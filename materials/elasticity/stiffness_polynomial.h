// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "materials/elasticity/elastic_constants.h"

namespace crossgrain {

/// Products of four components of a direction that differ: n1^4, n1^3 n2, ... n3^4.
constexpr int direction_monomial_count = 15;
using DirectionMonomials = Eigen::Matrix<double, direction_monomial_count, 1>;

/// @param direction  any non-zero length; it is brought to unit length, so that |n|^2 = 1 turns
/// constants and products of two components into products of four.
/// @throws std::invalid_argument if its length is zero or not finite.
DirectionMonomials direction_monomials(const Eigen::Vector3d& direction);

/// What each counts in |n|^4, which is 1: the way in which a constant is a sum of them.
DirectionMonomials constant_as_monomials();

/// Stiffness of a solid isotropic in its layers, in global axes, as a polynomial of the build
/// direction n: the sum of monomial times coefficient.
struct StiffnessPolynomial {
  std::array<Matrix6d, direction_monomial_count> coefficients;  ///< [MPa], symmetric

  /// @return 6x6 [MPa], global axes.
  Matrix6d along(const Eigen::Vector3d& direction) const;
};

/// With C in material axes, lambda = C12, mu_T = C66, mu_L = C44, a = C13 - C12 and
/// b = C33 - C11 - 2 a - 4 (mu_L - mu_T), d for Kronecker's symbol:
/// C_ijkl = lambda d_ij d_kl + mu_T (d_ik d_jl + d_il d_jk) + a (d_ij n_k n_l + n_i n_j d_kl)
///        + (mu_L - mu_T) (d_ik n_j n_l + d_il n_j n_k + d_jk n_i n_l + d_jl n_i n_k)
///        + b n_i n_j n_k n_l.
/// @throws std::invalid_argument if the constants are not isotropic about axis 3 (1e-9), or as
/// require_admissible does.
/// Source: A. J. M. Spencer, Deformations of Fibre-reinforced Materials (1972), the linear theory;
/// from memory, checked against the rotated stiffness.
StiffnessPolynomial stiffness_polynomial(const OrthotropicConstants& constants);

/// Of a solid that does not turn with n. @param C  6x6 [MPa], global axes.
StiffnessPolynomial fixed_stiffness(const Matrix6d& C);

}  // namespace crossgrain
