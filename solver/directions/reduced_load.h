// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/directions/directional_load.h"
#include "solver/directions/directional_stiffness.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// The answer to one load for every build direction, sought among the span of a few displacements:
/// the nearest to the true one in energy (Galerkin's). Displacements must keep what the supports
/// hold, and hold no rigid motion that they leave free.
class ReducedLoad {
 public:
  /// @param stiffness  kept by reference.
  /// @param additions  stiffness beside the elements', the same for every direction.
  ReducedLoad(const DirectionalStiffness& stiffness, DirectionalLoad load,
              StiffnessAdditions additions = {});

  /// Take in solutions for some directions. The span is widened by what is new of them, a solution
  /// less the answer before, so that the reduced systems stay well-conditioned; what is next to
  /// nothing is left out.
  /// @param directions  3 x n.  @param solutions  unknowns x n [mm].
  /// @param told  what the load's told parts counted, n columns; empty: it has none.
  /// @return strain of each vector that the span has grown by, with engineering shear, in the
  /// place of stress.
  /// @throws std::invalid_argument if a solution does not fit the mesh or is not finite.
  std::vector<ElementStress> widen(const Eigen::Matrix3Xd& directions,
                                   const Eigen::MatrixXd& solutions,
                                   const Eigen::MatrixXd& told = {});

  const DirectionalLoad& load() const { return load_; }
  /// Unknowns x size() [mm], each of unit energy along z.
  const Eigen::MatrixXd& vectors() const { return vectors_; }
  Eigen::Index size() const { return vectors_.cols(); }

  /// Vectorsᵗ K(n) vectors.
  Eigen::MatrixXd stiffness_along(const Eigen::Vector3d& direction) const;
  /// Of the vectors, in the answer. Empty while the span is.
  /// @param told  what the load's told parts count.
  /// @throws std::runtime_error if the vectors are not independent, to round-off.
  Eigen::VectorXd coefficients(const Eigen::Vector3d& direction,
                               const Eigen::VectorXd& told = {}) const;

  /// What is left of the vectors' span without some of the solutions taken in.
  /// @param without  by solution, in their order: whether it is left out.
  /// @return size() x rank, orthonormal columns.
  Eigen::MatrixXd span_without(const std::vector<char>& without) const;
  /// As above, the answer sought in that span.
  Eigen::VectorXd coefficients_within(const Eigen::MatrixXd& span, const Eigen::Vector3d& direction,
                                      const Eigen::VectorXd& told = {}) const;

  Eigen::VectorXd displacement(const Eigen::Vector3d& direction) const;
  /// f(n) - K(n) u of the answer, without supports [N].
  Eigen::VectorXd residual(const Eigen::Vector3d& direction) const;

 private:
  /// What resists a displacement.
  struct Resistance {
    StrainMoments of_elements;
    Eigen::VectorXd of_additions;  ///< unknowns [N]; empty without

    /// As of StrainMoments.
    Resistance& operator*=(double factor);
    void subtract(double factor, const Resistance& other);
  };
  /// Of each displacement.
  std::vector<Resistance> resistance(const Eigen::MatrixXd& displacements) const;
  /// Vectorsᵗ K_m u of all monomials.
  DirectionalStiffness::Products products(const Eigen::Ref<const Eigen::MatrixXd>& vectors,
                                          const Resistance& to_u) const;

  /// @param with_vectors, with_itself  products of u with the vectors before, and with u.
  void append(const Eigen::VectorXd& u, const DirectionalStiffness::Products& with_vectors,
              const DirectionalStiffness::Products& with_itself);

  const DirectionalStiffness& stiffness_;
  DirectionalLoad load_;
  StiffnessAdditions additions_;
  Eigen::MatrixXd vectors_;
  std::vector<Eigen::MatrixXd> blocks_;     ///< of each monomial
  Eigen::MatrixXd projected_load_;          ///< vectors x parts of the load
  std::vector<Eigen::VectorXd> solutions_;  ///< each as a sum of the first vectors
  double first_energy_ = 0.0;               ///< along z, of the first displacement [N mm]
};

}  // namespace crossgrain
