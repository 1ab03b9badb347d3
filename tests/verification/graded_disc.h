// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "mesh/geometry/ids.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/supports/supports.h"

namespace crossgrain::verification {

/// Quarter of a round body about z whose elements grow away from the middle of one face: a core of
/// `core` mm and rings round it to `radius`, layers down to `depth`. Cells grow geometrically.
struct GradedDisc {
  double core;
  double radius;
  double depth;
  int core_cells, ring_cells, layers;
  double ring_growth, layer_growth;  ///< of each cell over the one before
  double direction;                  ///< 1: the face looks down and the body lies above it; -1
  std::function<double(double)> face = [](double) { return 0.0; };  ///< z of the face by radius
  int first_face;                                                   ///< number of the first face
  /// Cells of the core end at (i / n)^this: below 1 they get smaller towards its edge.
  double core_power = 1.0;

  TetrahedronMesh mesh() const;
  std::vector<FaceId> graded_face() const;
  std::vector<FaceId> far_face() const;
  std::vector<FaceId> rim() const;
  std::vector<Support> symmetry() const;

 private:
  std::vector<FaceId> of_all_blocks(FaceId side) const;
  FaceId of_block(int block, FaceId side) const;
};

}  // namespace crossgrain::verification
