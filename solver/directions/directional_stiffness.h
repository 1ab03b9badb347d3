// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/elasticity/stiffness_polynomial.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// K_m u of all monomials side by side, unknowns x monomials [N]: times the monomials of n K(n) u.
using DirectionalForces =
    Eigen::Matrix<double, Eigen::Dynamic, direction_monomial_count, Eigen::RowMajor>;

/// The stiffness of a mesh as a polynomial of the one build direction n of all that turns: K(n) is
/// the sum of monomial times K_m. None of the matrices is put together; they are multiplied element
/// by element.
class DirectionalStiffness {
 public:
  /// Of bodies that share the direction.
  /// @param mesh   kept by reference.
  /// @param field  its materials, solids without layers among them; its frames do not count.
  /// @throws std::invalid_argument for a material that is not isotropic in its layers.
  DirectionalStiffness(const TetrahedronMesh& mesh, const MaterialField& field, int threads);
  /// Of bodies of which others are held as they are.
  /// @param turning  numbers of the frames that turn; the others count as they are.
  /// @throws std::invalid_argument likewise, and for a frame that is held and changes within an
  /// element.
  DirectionalStiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                       const std::vector<int>& turning, int threads);

  /// Without supports. Does not depend on threads.
  /// @param u  one displacement, unknowns [mm].
  /// @throws std::invalid_argument if it does not fit the mesh or is not finite; for an inverted
  /// element.
  DirectionalForces forces(const Eigen::VectorXd& u) const;
  /// The same of several displacements, in one pass over the elements.
  /// @param displacements  unknowns x n [mm].
  std::vector<DirectionalForces> forces_of_each(const Eigen::MatrixXd& displacements) const;

 private:
  /// Sums over all elements round a node of gradient times strain [mm^2]. Row: node; columns:
  /// component of its gradient, strain.
  using NodalMoments = Eigen::Matrix<double, Eigen::Dynamic, 18, Eigen::RowMajor>;
  std::vector<NodalMoments> nodal_moments(const std::vector<Eigen::Index>& tetrahedra,
                                          const Eigen::MatrixXd& displacements) const;

  const TetrahedronMesh& mesh_;
  std::vector<std::vector<Eigen::Index>> tetrahedra_of_solid_;  ///< turning, or held in one frame
  /// Of each solid: moments at a node (rows: as the columns above) -> force components of all
  /// monomials (columns: component, monomial).
  using Contraction = Eigen::Matrix<double, 18, 3 * direction_monomial_count>;
  std::vector<Contraction> contraction_;
  int threads_;
};

}  // namespace crossgrain
