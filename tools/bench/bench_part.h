// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/elements/material_field.h"
#include "solver/supports/supports.h"

namespace crossgrain::bench {

/// The bowl of the demo's filter housing under pressure, its lower end held.
struct Part {
  TetrahedronMesh mesh;
  std::size_t bodies = 0;
  std::vector<NodeConstraint> held;
  Eigen::VectorXd pressure;  ///< nodal forces [N]
  double seconds_meshing = 0.0;

  /// Short-carbon nylon, printed along a direction.
  MaterialField printed_along(const Eigen::Vector3d& build) const;
};

/// @param refinement  divides every element size.
Part meshed_part(double refinement);

}  // namespace crossgrain::bench
