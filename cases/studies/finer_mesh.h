// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "cases/judgement/mesh_error.h"

namespace crossgrain {

/// What is known of the mesh that a case was judged on.
struct JudgedMesh {
  const RunResult& result;  ///< with its worst factors, governing place and passes
  const JudgedModel& model;
  const Eigen::VectorXd& factor_shares;  ///< of MeshErrorEstimate; empty if nothing governs
  const MeshOptions& options;            ///< that it was made with
};

/// Whether a further mesh is worth its time.
struct NextMesh {
  std::optional<MeshOptions> options;  ///< none: no further mesh
  std::string reason;                  ///< why none, in words
};

/// Refine where the case file asks for it: round the weakest places to half a bead, and wherever
/// the governing factor's error comes from, until it is as small as asked for or a limit is met.
/// @param seconds  since the run began.
NextMesh next_mesh(const JudgedMesh& mesh, const Refining& refining, double seconds);

/// Where the factor goes as the estimated error goes to zero: along the line through the last two
/// passes. @return nothing unless both have one mode at one place, to an edge of the coarser mesh,
/// that they resolve, and the error fell by a third.
std::optional<double> extrapolated(const std::vector<MeshPass>& passes);

}  // namespace crossgrain
