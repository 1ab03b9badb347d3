// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/reduced_load.h"

#include <Eigen/Cholesky>
#include <cmath>
#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

// Of the first displacement's energy: what is smaller is the solver's error.
constexpr double least_energy = 1e-20;

}  // namespace

ReducedLoad::ReducedLoad(const DirectionalStiffness& stiffness, DirectionalLoad load)
    : stiffness_(stiffness),
      load_(std::move(load)),
      vectors_(load_.parts().rows(), 0),
      blocks_(direction_monomial_count, Eigen::MatrixXd(0, 0)),
      projected_load_(0, load_.parts().cols()) {}

bool ReducedLoad::widen(const Eigen::VectorXd& u) {
  DirectionalForces forces = stiffness_.forces(u);
  const double energy = u.dot(forces * direction_monomials({0, 0, 1}));
  if (size() == 0) first_energy_ = energy;
  if (!(energy > least_energy * first_energy_)) return false;
  const double scale = 1.0 / std::sqrt(energy);
  forces *= scale;
  const auto k = size();
  vectors_.conservativeResize(Eigen::NoChange, k + 1);
  vectors_.col(k) = scale * u;
  projected_load_.conservativeResize(k + 1, Eigen::NoChange);
  projected_load_.row(k) = vectors_.col(k).transpose() * load_.parts();
  const Eigen::MatrixXd products = vectors_.transpose() * forces;
  for (int m = 0; m < direction_monomial_count; ++m) {
    blocks_[m].conservativeResize(k + 1, k + 1);
    blocks_[m].col(k) = products.col(m);
    blocks_[m].row(k) = products.col(m).transpose();
  }
  return true;
}

Eigen::MatrixXd ReducedLoad::stiffness_along(const Eigen::Vector3d& direction) const {
  const auto monomials = direction_monomials(direction);
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(size(), size());
  for (int m = 0; m < direction_monomial_count; ++m) K += monomials[m] * blocks_[m];
  return K;
}

Eigen::VectorXd ReducedLoad::coefficients(const Eigen::Vector3d& direction) const {
  const Eigen::LLT<Eigen::MatrixXd> factor(stiffness_along(direction));
  if (factor.info() != Eigen::Success)
    throw std::runtime_error("the " + std::to_string(size()) +
                             " displacements that directions are answered from depend on each "
                             "other; fewer of them, solved more exactly, would not");
  return factor.solve(projected_load_ * load_.weights(direction));
}

Eigen::VectorXd ReducedLoad::displacement(const Eigen::Vector3d& direction) const {
  return vectors_ * coefficients(direction);
}

Eigen::VectorXd ReducedLoad::residual(const Eigen::Vector3d& direction) const {
  return load_.parts() * load_.weights(direction) -
         stiffness_.forces(displacement(direction)) * direction_monomials(direction);
}

}  // namespace crossgrain
