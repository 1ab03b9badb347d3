// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/judged_cases.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// One row per named direction, every body printed in it: solved with the nominal, the low and the
/// high constants on the same mesh and supports. Printability is left to the caller (it needs no
/// solve).
/// @param field  names the material of every tetrahedron; its frames are replaced.
/// @param start  unknowns x loads [mm], where the first one's solution begins; may be null.
std::vector<DirectionRow> study_directions(StaticSolver& solver, const JudgedModel& model,
                                           Loading& loading, const MaterialField& field,
                                           const MeshReport& mesh_report,
                                           const std::vector<NamedDirection>& directions,
                                           const Eigen::MatrixXd* start = nullptr);

/// The row of the case as it is, where its bodies have print directions of their own.
/// @param field  with these.
DirectionRow study_as_in_case(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                              const MaterialField& field, const MeshReport& mesh_report,
                              const std::string& name);

}  // namespace crossgrain
