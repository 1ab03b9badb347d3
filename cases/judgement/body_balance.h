// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// Volume and mass of every body that is modelled, as its elements have them, beside its volume in
/// CAD and that times its card's density.
/// @param materials  by body.
std::vector<BodyBalance> balance_bodies(const Geometry& geometry, const TetrahedronMesh& mesh,
                                        const MaterialField& field,
                                        const std::vector<MaterialAtConditions>& materials);

}  // namespace crossgrain
