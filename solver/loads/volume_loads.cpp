// SPDX-License-Identifier: GPL-3.0-or-later
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/point_material.h"
#include "solver/elements/strain.h"
#include "solver/loads/loads.h"

namespace crossgrain {
namespace {

using ElementForces = Eigen::Matrix<double, 3, 10>;

/// Sum element forces (column a: on node a) into nodal forces. Elements are worked out in parallel
/// and added in order, so that the sum does not depend on threads.
template <class ForcesOfElement>
Eigen::VectorXd gathered_forces(const TetrahedronMesh& mesh, const MaterialField& field,
                                const ForcesOfElement& forces_of) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  std::vector<ElementForces> forces(mesh.tetrahedron_count());
  in_parallel(mesh.tetrahedron_count(), 0, [&](Eigen::Index begin, Eigen::Index end) {
    ElementAtPoints element(rule);
    PointMaterial material(field);
    for (auto t = begin; t < end; ++t) {
      element.move_to(mesh, t);
      forces[t] = forces_of(element, material, t);
    }
  });
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(mesh.unknowns());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    for (int a = 0; a < 10; ++a)
      sum.segment<3>(3 * Eigen::Index{mesh.tetrahedra(a, t)}) += forces[t].col(a);
  return sum;
}

}  // namespace

Eigen::VectorXd mass_times(const TetrahedronMesh& mesh, const MaterialField& field,
                           const Eigen::VectorXd& vectors) {
  if (vectors.size() != mesh.unknowns() || !vectors.allFinite())
    throw std::invalid_argument("nodal accelerations do not fit the mesh or are not finite");
  return gathered_forces(
      mesh, field, [&](const ElementAtPoints& element, PointMaterial&, Eigen::Index t) {
        const auto at_nodes = nodal_vectors(mesh, t, vectors);
        ElementForces forces = ElementForces::Zero();
        for (Eigen::Index q = 0; q < element.size(); ++q)
          forces +=
              element.weight(q) * (at_nodes * element.shape(q)) * element.shape(q).transpose();
        return ElementForces(field.material(t).density * forces);
      });
}

Eigen::VectorXd body_load(const TetrahedronMesh& mesh, const MaterialField& field,
                          const Eigen::Vector3d& acceleration) {
  return mass_times(mesh, field, acceleration.replicate(mesh.node_count(), 1));
}

Eigen::VectorXd thermal_load(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Eigen::VectorXd& temperature_change) {
  if (temperature_change.size() != mesh.node_count() || !temperature_change.allFinite())
    throw std::invalid_argument(
        "the temperature change needs one finite number for each node of the mesh");
  return gathered_forces(
      mesh, field, [&](const ElementAtPoints& element, PointMaterial& material, Eigen::Index t) {
        const TetrahedronShape at_nodes = temperature_change(mesh.tetrahedra.col(t));
        ElementForces forces = ElementForces::Zero();
        for (Eigen::Index q = 0; q < element.size(); ++q) {
          const Vector6d stress = material.stiffness(t, q) * material.thermal_strain(t, q) *
                                  at_nodes.dot(element.shape(q));
          forces += element.weight(q) * tensor_of(stress) * element.gradients(q);
        }
        return forces;
      });
}

}  // namespace crossgrain
