// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// One side of an edge: its place in a loop of a face.
struct EdgeUse {
  FaceId face;
  std::size_t loop;
  std::size_t position;
};

/// Who lies on the other side of which edge.
class FaceNeighbours {
 public:
  explicit FaceNeighbours(const Geometry& geometry);

  struct Neighbour {
    EdgeId edge;
    FaceId face;
  };
  /// Across all edges of the face, loop by loop; seams, poles and other bodies left out. A face
  /// comes once for each common edge.
  const std::vector<Neighbour>& of(FaceId face) const { return neighbours_[index(face)]; }

  /// The edge's other side in the same body; a seam's is in the same face. None on a pole, nor
  /// where more than two faces meet.
  std::optional<EdgeUse> twin(const EdgeUse& use) const;

  /// The next side in the same loop.
  EdgeUse next(const EdgeUse& use) const;

  const LoopEdge& side(const EdgeUse& use) const;

 private:
  const Geometry& geometry_;
  std::vector<std::vector<EdgeUse>> uses_;  ///< by edge
  std::vector<std::vector<Neighbour>> neighbours_;
};

}  // namespace crossgrain
