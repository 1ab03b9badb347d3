// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include "mesh/step/step_reader.h"
#include "mesh/tetrahedra/mesh_options.h"
#include "mesh/tetrahedra/mesh_report.h"
#include "mesh/tetrahedra/remedies.h"

namespace crossgrain {

/// Mesh an imported shape in this process, which may be crashed or hung by it: call in a worker.
/// @return mesh and report; the geometry stays empty.
/// @throws MeshingFailure if another remedy may help, std::invalid_argument if not.
MeshedGeometry mesh_shape(const ReadStep& step, const MeshOptions& options, const Remedy& remedy);

}  // namespace crossgrain
