// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <filesystem>

#include "mesh/geometry/geometry.h"
#include "mesh/step/conformal_shape.h"
#include "mesh/tetrahedra/mesh_extraction.h"

namespace crossgrain {

/// Write Gmsh's current model as .msh (4.1, binary, so that every digit is kept), with the nodes
/// where the mesh has them. Appears whole or not at all.
/// @throws std::invalid_argument naming the file if it cannot be written.
void write_mesh_file(const ExtractedMesh& extracted, const std::filesystem::path& file);

/// The name under which a file is written before it gets its own.
std::filesystem::path unfinished(const std::filesystem::path& file);

/// Read a .msh of the same shape: ten-node tetrahedra in volumes and six-node triangles on faces
/// numbered as in the STEP file, their nodes on these faces. Gmsh's current model becomes the
/// file's.
/// @throws std::invalid_argument naming the file if it cannot be read or is of another shape.
TetrahedronMesh read_mesh_file(const std::filesystem::path& file, const ConformalShape& shape,
                               const Geometry& geometry);

}  // namespace crossgrain
