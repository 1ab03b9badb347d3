// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// What each support carries: internal force minus load, summed over its nodes along the directions
/// held there. A node of two supports counts for the first.
std::vector<SupportReaction> support_reactions(const TetrahedronMesh& mesh,
                                               const std::vector<Support>& supports,
                                               const CombinedCase& combined,
                                               const StaticSolver& solver,
                                               const std::string& load_case);

/// Applied against reacted force and moment over every elementary load, the solve's residual, the
/// mesh's volume against the CAD's. A part that is free to move reacts by inertia.
BalanceReport check_balance(const TetrahedronMesh& mesh, const Loading& loading,
                            const ElementarySolution& solution, const StaticSolver& solver,
                            const MeshReport& mesh_report);

}  // namespace crossgrain
