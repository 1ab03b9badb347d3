// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

#include "solver/elements/material_field.h"
#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// The nodal forces whose work on a displacement is a weighted sum of its stress over elements:
/// solving for them gives the field that tells how much each place counts for that sum.
/// @param direction  what each stress component counts, global axes.
/// @return unknowns [direction's unit times MPa/mm].
Eigen::VectorXd stress_functional(const TetrahedronMesh& mesh, const MaterialField& field,
                                  std::span<const ElementShare> shares, const Vector6d& direction);

}  // namespace crossgrain
