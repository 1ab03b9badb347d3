// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/elasticity/stiffness_polynomial.h"
#include "solver/elements/material_field.h"
#include "solver/stress/element_stress.h"

namespace crossgrain {

/// All that the forces K(n) u of a displacement are made of for every n, and its strain.
struct StrainMoments {
  /// Sums over the elements of one solid round a node of gradient times strain [mm^2]. Row:
  /// node; columns: component of its gradient, strain.
  using OfNodes = Eigen::Matrix<double, Eigen::Dynamic, 18, Eigen::RowMajor>;
  std::vector<OfNodes> of_solid;
  /// With engineering shear, in the place of stress.
  ElementStress strain;

  /// Those of the displacement times a factor.
  StrainMoments& operator*=(double factor);
  /// Those of the displacement less another one times a factor.
  void subtract(double factor, const StrainMoments& other);
};

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

  /// In one pass over the elements. Does not depend on threads.
  /// @param displacements  unknowns x n [mm].
  /// @throws std::invalid_argument if they do not fit the mesh or are not finite; for an inverted
  /// element.
  std::vector<StrainMoments> moments(const Eigen::MatrixXd& displacements) const;

  /// K(n) u, without supports [N].
  Eigen::VectorXd forces(const StrainMoments& of_u, const Eigen::Vector3d& direction) const;

  /// vectorsᵗ K_m u of all monomials side by side: times the monomials of n vectorsᵗ K(n) u.
  /// @param vectors  unknowns x k [mm].
  using Products = Eigen::Matrix<double, Eigen::Dynamic, direction_monomial_count>;
  Products products(const Eigen::Ref<const Eigen::MatrixXd>& vectors,
                    const StrainMoments& of_u) const;

 private:
  /// Elements of one material that turn, or are held in one frame.
  struct Solid {
    std::vector<Eigen::Index> straight, curved;
    /// Moments at a node (rows: as the columns above) -> force components of all monomials
    /// (columns: component, monomial).
    Eigen::Matrix<double, 18, 3 * direction_monomial_count> contraction;
  };
  void add_moments(const std::vector<Eigen::Index>& tetrahedra, const TetrahedronRule& rule,
                   const Eigen::MatrixXd& displacements, std::size_t solid,
                   std::vector<StrainMoments>& sums) const;

  const TetrahedronMesh& mesh_;
  std::vector<Solid> solids_;
  int threads_;
};

}  // namespace crossgrain
