// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include "mesh/step/step_reader.h"
#include "mesh/tetrahedra/gmsh_session.h"
#include "mesh/tetrahedra/mesh_report.h"

namespace crossgrain {

/// Measure the part's walls and mesh it with straight edges: as many layers as asked for where they
/// fit, no more unknowns than allowed. What had to give way is told in the report.
/// @throws MeshingFailure if Gmsh fails, or cannot mesh the part with so few unknowns.
void mesh_walls(GmshSession& gmsh, const ReadStep& step, const ConformalShape& shape,
                const MeshOptions& options, const Remedy& remedy, MeshReport& report);

}  // namespace crossgrain
