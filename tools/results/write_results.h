// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "tools/results/pressure_units.h"
#include "tools/results/run_outputs.h"

namespace crossgrain {

/// Write all files of a run: summary.json, summary.md, report.html, fields.vtu and faces.vtp of the
/// governing load case, those of the others as fields_<n>_<name>.vtu and faces_<n>_<name>.vtp, and
/// fields.pvd and faces.pvd that list them; of joined bodies joint.vtp and its likes with
/// joint.pvd, joint.csv and joint_forces.svg as well. They appear together or not at all; an
/// earlier run's are replaced only once the new ones are complete, and its files that this run has
/// no like of are removed.
/// @throws std::invalid_argument, naming the path and the reason, if the directory cannot be
/// written to or writing fails.
void write_results(const RunOutputs& outputs, const ReadingUnits& units,
                   const std::filesystem::path& directory);

}  // namespace crossgrain
