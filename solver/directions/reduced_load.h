// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/directions/directional_load.h"
#include "solver/directions/directional_stiffness.h"

namespace crossgrain {

/// The answer to one load for every build direction, sought among the span of a few displacements:
/// the nearest to the true one in energy (Galerkin's). Displacements must keep what the supports
/// hold, and hold no rigid motion that they leave free.
class ReducedLoad {
 public:
  /// @param stiffness  kept by reference.
  ReducedLoad(const DirectionalStiffness& stiffness, DirectionalLoad load);

  /// Widen the span. Best given is what is new, a solution less the answer before, so that the
  /// reduced systems stay well-conditioned; what is next to nothing is left out.
  /// @param u  unknowns [mm].  @return whether the span has grown.
  /// @throws std::invalid_argument if u does not fit the mesh or is not finite.
  bool widen(const Eigen::VectorXd& u);

  /// Unknowns x size() [mm], each of unit energy along z.
  const Eigen::MatrixXd& vectors() const { return vectors_; }
  Eigen::Index size() const { return vectors_.cols(); }

  /// Vectorsᵗ K(n) vectors.
  Eigen::MatrixXd stiffness_along(const Eigen::Vector3d& direction) const;
  /// Of the vectors, in the answer. Empty while the span is.
  /// @throws std::runtime_error if the vectors are not independent, to round-off.
  Eigen::VectorXd coefficients(const Eigen::Vector3d& direction) const;
  Eigen::VectorXd displacement(const Eigen::Vector3d& direction) const;
  /// f(n) - K(n) u of the answer, without supports [N].
  Eigen::VectorXd residual(const Eigen::Vector3d& direction) const;

 private:
  const DirectionalStiffness& stiffness_;
  DirectionalLoad load_;
  Eigen::MatrixXd vectors_;
  std::vector<Eigen::MatrixXd> blocks_;  ///< of each monomial
  Eigen::MatrixXd projected_load_;       ///< vectors x parts of the load
  double first_energy_ = 0.0;            ///< along z, of the first displacement [N mm]
};

}  // namespace crossgrain
