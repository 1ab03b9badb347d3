// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/judgement/run_result.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// Everything a run's files are written from. Refers to the caller's data: use it while they live.
struct RunOutputs {
  const RunResult& result;
  const CaseFile& case_file;
  const MeshedGeometry& meshed;
  const Features& features;
  const MaterialField& field;
  const std::vector<StressPoint>& points;
  const std::vector<FaceId>& cavity;  ///< faces that no support material can be reached on
};

/// Names of the field files of one load case.
struct CaseFileNames {
  std::string fields;  ///< "fields.vtu" for the governing case, "fields_2_assembly.vtu" for others
  std::string faces;   ///< the same with "faces" and .vtp
  std::string joint;   ///< the same with "joint" and .vtp, of joined bodies only
};

/// Position in result.cases of the load case that the verdict speaks of: the one with the least
/// factor, proof tests left out; 0 if there is none.
std::size_t governing_case_index(const RunResult& result);

/// One per load case, in their order.
std::vector<CaseFileNames> case_file_names(const RunResult& result);

}  // namespace crossgrain
