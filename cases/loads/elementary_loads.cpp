// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/load_cases.h"

namespace crossgrain {

void update_field_loads(Loading& loading, const TetrahedronMesh& mesh, const MaterialField& field) {
  // Joined bodies' states are made of the loads from outside when they are solved.
  for (auto& load : loading.joined ? loading.joined->acting : loading.loads) {
    if (load.acceleration) {
      load.nodal_forces = body_load(mesh, field, *load.acceleration);
    } else if (load.temperature_change.size() > 0) {
      load.nodal_forces = thermal_load(mesh, field, load.temperature_change);
    } else {
      continue;
    }
    load.resultant = resultant(mesh, load.nodal_forces);
  }
}

Eigen::MatrixXd load_matrix(const Loading& loading) {
  Eigen::MatrixXd loads(loading.loads.empty() ? 0 : loading.loads.front().nodal_forces.size(),
                        static_cast<Eigen::Index>(loading.loads.size()));
  for (std::size_t i = 0; i < loading.loads.size(); ++i) {
    loads.col(static_cast<Eigen::Index>(i)) = loading.loads[i].nodal_forces;
  }
  return loads;
}

}  // namespace crossgrain
