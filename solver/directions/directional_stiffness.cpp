// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/directional_stiffness.h"

#include <stdexcept>
#include <string>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"
#include "solver/elements/strain.h"

namespace crossgrain {
namespace {

constexpr int monomials = direction_monomial_count;
/// Of an element; row: node, columns: component, monomial.
using ElementForces = Eigen::Matrix<double, 10, 3 * monomials, Eigen::RowMajor>;
// So that what waits to be summed stays in the cache.
constexpr Eigen::Index elements_at_a_time = 1024;

/// Place of component (i, j) among the six of a stress.
constexpr int place_of[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};

/// Sums over the points of an element of gradient times strain.
class StrainMoments {
 public:
  explicit StrainMoments(const TetrahedronMesh& mesh)
      : mesh_(mesh), straight_(tetrahedron_rule(2)), curved_(stiffness_rule()) {}

  /// @return row: node, columns: component of its gradient, strain [mm^2].
  const Eigen::Matrix<double, 10, 18>& of(Eigen::Index t, const Eigen::VectorXd& u) {
    // Strain and gradients are linear where edges are straight: four points are exact.
    ElementAtPoints& element = has_straight_edges(mesh_, t) ? straight_ : curved_;
    element.move_to(mesh_, t);
    const auto at_nodes = nodal_vectors(mesh_, t, u);
    sums_.setZero();
    for (Eigen::Index q = 0; q < element.size(); ++q) {
      const Vector6d strain = element.weight(q) * strain_of(element.gradients(q), at_nodes);
      for (int j = 0; j < 3; ++j)
        sums_.middleCols<6>(6 * j) += element.gradients(q).row(j).transpose() * strain.transpose();
    }
    return sums_;
  }

 private:
  const TetrahedronMesh& mesh_;
  ElementAtPoints straight_, curved_;
  Eigen::Matrix<double, 10, 18> sums_;
};

}  // namespace

DirectionalStiffness::DirectionalStiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                                           int threads)
    : mesh_(mesh),
      material_of_tetrahedron_(field.material_of_tetrahedron),
      threads_(thread_count(threads)) {
  require_fits(field, mesh, stiffness_rule().size());
  for (const auto& material : field.materials) {
    const auto polynomial = stiffness_polynomial(material.elastic);
    Contraction contraction;
    for (int m = 0; m < monomials; ++m)
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
          contraction.col(i * monomials + m).segment<6>(6 * j) =
              polynomial.coefficients[m].row(place_of[i][j]);
    contraction_.push_back(contraction);
  }
}

DirectionalForces DirectionalStiffness::forces(const Eigen::VectorXd& u) const {
  if (u.size() != mesh_.unknowns() || !u.allFinite())
    throw std::invalid_argument("a displacement does not fit the mesh or is not finite");
  DirectionalForces sum = DirectionalForces::Zero(u.size(), monomials);
  std::vector<ElementForces> forces(elements_at_a_time);
  for (Eigen::Index first = 0; first < mesh_.tetrahedron_count(); first += elements_at_a_time) {
    const auto count = std::min(elements_at_a_time, mesh_.tetrahedron_count() - first);
    in_parallel(count, threads_, [&](Eigen::Index begin, Eigen::Index end) {
      StrainMoments moments(mesh_);
      for (auto e = begin; e < end; ++e)
        forces[e].noalias() =
            moments.of(first + e, u) * contraction_[material_of_tetrahedron_[first + e]];
    });
    // Every range adds to nodes of its own, in the order of the elements.
    in_parallel(mesh_.node_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
      for (Eigen::Index e = 0; e < count; ++e)
        for (int a = 0; a < 10; ++a) {
          const Eigen::Index node = mesh_.tetrahedra(a, first + e);
          if (node < begin || node >= end) continue;
          Eigen::Map<Eigen::Matrix<double, 1, 3 * monomials>>(&sum(3 * node, 0)) +=
              forces[e].row(a);
        }
    });
  }
  return sum;
}

}  // namespace crossgrain
