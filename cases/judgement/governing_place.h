// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// What the mesh is like where the factor was found, and what the stress at the nodes would have
/// said. @return nothing if no place governs.
/// @param result  concluded.
std::optional<GoverningPlace> look_at_governing(const RunResult& result, const JudgedModel& model,
                                                const Loading& loading,
                                                const ElementarySolution& solution,
                                                const MaterialField& field);

/// The longest edge of the elements of one body that have a node within a distance of a point
/// [mm].
double longest_edge_near(const TetrahedronMesh& mesh, BodyId body, const Eigen::Vector3d& point,
                         double distance);

}  // namespace crossgrain
