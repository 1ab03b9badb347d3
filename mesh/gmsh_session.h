// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/conformal_shape.h"
#include "mesh/meshing.h"
#include "mesh/remedies.h"

namespace crossgrain {

/// Gmsh's global state, set up on construction and torn down on destruction.
class GmshSession {
 public:
  GmshSession(const MeshOptions& options, const Remedy& remedy);
  ~GmshSession();
  GmshSession(const GmshSession&) = delete;
  GmshSession& operator=(const GmshSession&) = delete;

  /// Hand the shape over and make sure that Gmsh numbers volumes and faces as we do.
  void load(const ConformalShape& shape);

  void mesh_surfaces();
  void mesh_volumes();
  /// Quadratic, with the new nodes on the CAD faces.
  void raise_order();
  /// Untangle curved elements; does nothing where Gmsh's optimiser gives up.
  void untangle();
  void write(const std::filesystem::path& file);
};

}  // namespace crossgrain
