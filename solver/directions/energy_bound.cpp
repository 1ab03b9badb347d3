// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/energy_bound.h"

#include <algorithm>
#include <limits>

#include "materials/elasticity/isotropic_neighbour.h"

namespace crossgrain {

IsotropicField isotropic_field(const MaterialField& field) {
  IsotropicField result{field, std::numeric_limits<double>::infinity(), 0.0};
  for (auto& material : result.field.materials) {
    const auto neighbour = isotropic_neighbour(material.elastic);
    material.elastic = neighbour.constants;
    result.least = std::min(result.least, neighbour.least);
    result.greatest = std::max(result.greatest, neighbour.greatest);
  }
  return result;
}

Eigen::VectorXd energy_error_bounds(StaticSolver& solver, const IsotropicField& isotropic,
                                    const Eigen::MatrixXd& residuals) {
  const Eigen::MatrixXd answers = solver.solve(residuals, Unbalanced::left_to_inertia);
  const Eigen::VectorXd energies = residuals.cwiseProduct(answers).colwise().sum();
  return (energies.cwiseMax(0.0) / isotropic.least).cwiseSqrt();
}

}  // namespace crossgrain
