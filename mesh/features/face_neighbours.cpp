// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/face_neighbours.h"

namespace crossgrain {

FaceNeighbours::FaceNeighbours(const Geometry& geometry)
    : geometry_(geometry), uses_(geometry.edges.size()), neighbours_(geometry.faces.size()) {
  for (const CadFace& face : geometry.faces) {
    for (std::size_t loop = 0; loop < face.loops.size(); ++loop) {
      for (std::size_t i = 0; i < face.loops[loop].size(); ++i) {
        uses_[index(face.loops[loop][i].edge)].push_back({face.id, loop, i});
      }
    }
  }
  for (const CadFace& face : geometry.faces) {
    for (std::size_t loop = 0; loop < face.loops.size(); ++loop) {
      for (std::size_t i = 0; i < face.loops[loop].size(); ++i) {
        const auto other = twin({face.id, loop, i});
        if (other && other->face != face.id) {
          neighbours_[index(face.id)].push_back({face.loops[loop][i].edge, other->face});
        }
      }
    }
  }
}

std::optional<EdgeUse> FaceNeighbours::twin(const EdgeUse& use) const {
  std::optional<EdgeUse> found;
  for (const EdgeUse& other : uses_[index(side(use).edge)]) {
    const bool same =
        other.face == use.face && other.loop == use.loop && other.position == use.position;
    if (same || geometry_.face(other.face).body != geometry_.face(use.face).body) {
      continue;
    }
    if (found) {
      return std::nullopt;
    }
    found = other;
  }
  return found;
}

EdgeUse FaceNeighbours::next(const EdgeUse& use) const {
  const std::size_t count = geometry_.face(use.face).loops[use.loop].size();
  return {use.face, use.loop, (use.position + 1) % count};
}

const LoopEdge& FaceNeighbours::side(const EdgeUse& use) const {
  return geometry_.face(use.face).loops[use.loop][use.position];
}

}  // namespace crossgrain
