// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/judged_cases.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// One row per named direction, every body printed in it: solved with the nominal, the low and the
/// high constants on the same mesh and supports, with what that mesh may make of each factor.
/// Printability is left to the caller (it needs no solve).
/// @param field  names the material of every tetrahedron; its frames are replaced.
std::vector<DirectionRow> study_directions(StaticSolver& solver, const JudgedModel& model,
                                           Loading& loading, const MaterialField& field,
                                           const MeshedGeometry& meshed,
                                           const std::vector<NamedDirection>& directions);

/// Bodies printed as a field has them, each perhaps its own way, solved fully.
struct StudiedPrinting {
  DirectionRow row;
  ElementarySolution solution;  ///< with the nominal constants
};

/// @param field  with the frames of every body.
/// @param start  unknowns x loads [mm], where the solution begins; may be null.
StudiedPrinting study_printing(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                               const MaterialField& field, const MeshedGeometry& meshed,
                               const std::string& name, const Eigen::MatrixXd* start = nullptr);

}  // namespace crossgrain
