// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/step/import_options.h"
#include "mesh/step/stages.h"
#include "mesh/tetrahedra/mesh_options.h"
#include "mesh/tetrahedra/mesh_report.h"

namespace crossgrain {

/// Import STEP files in a child process. Never lets the kernel's abort or hang reach the caller.
/// @throws std::invalid_argument naming the file, or the bodies that overlap, what is wrong with it
/// and the remedy.
Geometry import_step(const ImportOptions& options);

/// Import and mesh in a child process, with its time limit and its ladder of remedies.
/// @throws std::invalid_argument naming the file and the face on which meshing failed when the
/// whole ladder fails.
MeshedGeometry mesh_step(const ImportOptions& import, const MeshOptions& options,
                         const Progress& progress = {});

}  // namespace crossgrain
