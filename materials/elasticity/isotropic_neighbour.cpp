// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/isotropic_neighbour.h"

#include <Eigen/Eigenvalues>
#include <cmath>

namespace crossgrain {
namespace {

IsotropicNeighbour compared(const Matrix6d& C, double E, double nu) {
  IsotropicNeighbour neighbour{isotropic(E, nu), 0.0, 0.0};
  const Eigen::GeneralizedSelfAdjointEigenSolver<Matrix6d> eigen(C, stiffness(neighbour.constants),
                                                                 Eigen::EigenvaluesOnly);
  neighbour.least = eigen.eigenvalues().minCoeff();
  neighbour.greatest = eigen.eigenvalues().maxCoeff();
  return neighbour;
}

}  // namespace

IsotropicNeighbour isotropic_neighbour(const OrthotropicConstants& constants) {
  const Matrix6d C = stiffness(constants);
  // The ratio falls with Poisson's ratio up to the best one and rises from there on: it is a
  // greatest over states of strain of functions that do. Golden sections find it.
  constexpr double shorter = 0.61803398874989484820;  // (sqrt(5) - 1) / 2
  constexpr double close_enough = 1e-4;               // the ratio is flat there
  double low = -0.4, high = 0.49;
  while (high - low > close_enough) {
    const double left = high - shorter * (high - low), right = low + shorter * (high - low);
    if (compared(C, 1.0, left).condition() < compared(C, 1.0, right).condition())
      high = right;
    else
      low = left;
  }
  const double nu = 0.5 * (low + high);
  const auto unscaled = compared(C, 1.0, nu);
  return compared(C, std::sqrt(unscaled.least * unscaled.greatest), nu);
}

}  // namespace crossgrain
