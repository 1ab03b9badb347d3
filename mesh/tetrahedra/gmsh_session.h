// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/step/conformal_shape.h"
#include "mesh/tetrahedra/mesh_options.h"
#include "mesh/tetrahedra/remedies.h"
#include "mesh/tetrahedra/size_field.h"
#include "mesh/tetrahedra/wall_columns.h"

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

  /// Mesh with edges of the field's length, and with these points among the nodes. Straight edges;
  /// an earlier mesh is dropped. The field must live until the mesh is dropped or curved.
  void mesh_straight(const SizeField& sizes, const std::vector<InnerPoint>& inside);
  /// The same with the surfaces' mesh as it is.
  void mesh_volumes_again(const SizeField& sizes, const std::vector<InnerPoint>& inside);
  /// Quadratic, with the new nodes on the CAD faces.
  void raise_order();

 private:
  void ask_for(const SizeField& sizes);
  void mesh_volumes(const std::vector<InnerPoint>& inside);
  void drop_embedded();
  void embed(const std::vector<InnerPoint>& inside);

  std::vector<BodyId> body_of_volume_;
  std::vector<std::pair<int, int>> embedded_;  ///< Gmsh's points inside volumes
};

}  // namespace crossgrain
