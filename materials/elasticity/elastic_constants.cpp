// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/elastic_constants.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace crossgrain {
namespace {

// Isotropic nu = 0.495 leaves 1 - 2 nu = 0.01; nearer to 0, quadratic displacement elements lock.
constexpr double least_normalised_compliance = 0.01;

/// Compliance of the normal stresses, scaled to a unit diagonal: -nu_ij sqrt(E_j / E_i) off it.
/// Positive definite exactly when the solid stores positive energy; its least eigenvalue is
/// 1 - 2 nu if the solid is isotropic.
Eigen::Matrix3d normalised_compliance(const OrthotropicConstants& c) {
  const double n12 = -c.nu_12 * std::sqrt(c.E_2 / c.E_1);
  const double n13 = -c.nu_13 * std::sqrt(c.E_3 / c.E_1);
  const double n23 = -c.nu_23 * std::sqrt(c.E_3 / c.E_2);
  return Eigen::Matrix3d{{1.0, n12, n13}, {n12, 1.0, n23}, {n13, n23, 1.0}};
}

using Complaint = std::optional<std::string>;

Complaint unless_positive(const char* name, double value) {
  if (value > 0.0 && std::isfinite(value)) return std::nullopt;
  std::ostringstream message;
  message << "elastic constants: " << name << " > 0 fails, " << name << " = " << value << " MPa";
  return message.str();
}

Complaint unless_pair(const char* nu_name, const char* Ei_name, const char* Ej_name, double nu,
                      double E_i, double E_j) {
  if (nu * nu < E_i / E_j) return std::nullopt;
  std::ostringstream message;
  message << "elastic constants: " << nu_name << "^2 < " << Ei_name << "/" << Ej_name << " fails, "
          << nu_name << " = " << nu << ", " << Ei_name << " = " << E_i << " MPa, " << Ej_name
          << " = " << E_j << " MPa; check " << nu_name << " (it is not nu_" << nu_name[4]
          << nu_name[3] << ")";
  return message.str();
}

/// The determinant of the compliance, and the distance from incompressible.
Complaint unless_positive_definite(const OrthotropicConstants& c) {
  const double nu_21 = c.nu_12 * c.E_2 / c.E_1;
  const double nu_31 = c.nu_13 * c.E_3 / c.E_1;
  const double nu_32 = c.nu_23 * c.E_3 / c.E_2;
  const double determinant =
      1.0 - c.nu_12 * nu_21 - c.nu_23 * nu_32 - c.nu_13 * nu_31 - 2.0 * c.nu_12 * c.nu_23 * nu_31;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(normalised_compliance(c),
                                                             Eigen::EigenvaluesOnly);
  const double least = eigen.eigenvalues()[0];
  if (determinant > 0.0 && least >= least_normalised_compliance * (1.0 - 1e-12))
    return std::nullopt;

  std::ostringstream message;
  message << "elastic constants: ";
  if (determinant > 0.0 && least > 0.0)
    message << "too close to incompressible for displacement elements (an isotropic nu > 0.495): ";
  else
    message << "1 - nu_12 nu_21 - nu_23 nu_32 - nu_13 nu_31 - 2 nu_12 nu_23 nu_31 > 0 fails, it is "
            << determinant << ": ";
  message << "nu_12 = " << c.nu_12 << ", nu_13 = " << c.nu_13 << ", nu_23 = " << c.nu_23
          << ", nu_31 = " << nu_31 << ", E_1 = " << c.E_1 << " MPa, E_2 = " << c.E_2
          << " MPa, E_3 = " << c.E_3 << " MPa; lower a Poisson's ratio";
  return message.str();
}

}  // namespace

OrthotropicConstants orthotropic(const TransverselyIsotropicConstants& c) {
  return {.E_1 = c.E_layer,
          .E_2 = c.E_layer,
          .E_3 = c.E_build,
          .nu_12 = c.nu_12,
          .nu_13 = c.nu_13,
          .nu_23 = c.nu_13,
          .G_23 = c.G_build,
          .G_13 = c.G_build,
          .G_12 = c.E_layer / (2.0 * (1.0 + c.nu_12))};
}

OrthotropicConstants isotropic(double E, double nu) {
  const double G = E / (2.0 * (1.0 + nu));
  return {.E_1 = E,
          .E_2 = E,
          .E_3 = E,
          .nu_12 = nu,
          .nu_13 = nu,
          .nu_23 = nu,
          .G_23 = G,
          .G_13 = G,
          .G_12 = G};
}

Matrix6d compliance(const OrthotropicConstants& c) {
  Matrix6d S = Matrix6d::Zero();
  S.diagonal() << 1.0 / c.E_1, 1.0 / c.E_2, 1.0 / c.E_3, 1.0 / c.G_23, 1.0 / c.G_13, 1.0 / c.G_12;
  S(0, 1) = S(1, 0) = -c.nu_12 / c.E_1;
  S(0, 2) = S(2, 0) = -c.nu_13 / c.E_1;
  S(1, 2) = S(2, 1) = -c.nu_23 / c.E_2;
  return S;
}

Matrix6d stiffness(const OrthotropicConstants& c) {
  require_admissible(c);
  const Eigen::Vector3d root(std::sqrt(c.E_1), std::sqrt(c.E_2), std::sqrt(c.E_3));
  const Eigen::Matrix3d inverse = normalised_compliance(c).inverse();
  Matrix6d C = Matrix6d::Zero();
  const Eigen::Matrix3d normal = root.asDiagonal() * inverse * root.asDiagonal();
  C.topLeftCorner<3, 3>() = 0.5 * (normal + normal.transpose());
  C(3, 3) = c.G_23;
  C(4, 4) = c.G_13;
  C(5, 5) = c.G_12;
  return C;
}

std::optional<std::string> inadmissibility(const OrthotropicConstants& c) {
  Complaint complaint = unless_positive("E_1", c.E_1);
  const auto also = [&](Complaint next) {
    if (!complaint) complaint = std::move(next);
  };
  also(unless_positive("E_2", c.E_2));
  also(unless_positive("E_3", c.E_3));
  also(unless_positive("G_23", c.G_23));
  also(unless_positive("G_13", c.G_13));
  also(unless_positive("G_12", c.G_12));
  also(unless_pair("nu_12", "E_1", "E_2", c.nu_12, c.E_1, c.E_2));
  also(unless_pair("nu_13", "E_1", "E_3", c.nu_13, c.E_1, c.E_3));
  also(unless_pair("nu_23", "E_2", "E_3", c.nu_23, c.E_2, c.E_3));
  return complaint ? complaint : unless_positive_definite(c);
}

void require_admissible(const OrthotropicConstants& constants) {
  if (const auto complaint = inadmissibility(constants)) throw std::invalid_argument(*complaint);
}

}  // namespace crossgrain
