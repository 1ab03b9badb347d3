// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/step_document.h"

namespace crossgrain {

/// The solids of all files, file by file and in their places.
struct StepAssembly {
  std::vector<ReadFile> files;
  std::vector<LabelledSolid> solids;
  std::vector<std::size_t> file_of_solid;
  std::vector<std::string> warnings;
};

/// @throws std::invalid_argument naming the file, what is wrong with it or with its placement, and
/// the remedy.
StepAssembly read_assembly(const std::vector<StepSource>& sources);

}  // namespace crossgrain
