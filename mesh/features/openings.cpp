// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/openings.h"

#include <algorithm>
#include <array>
#include <set>

namespace crossgrain {
namespace {

/// From one side of the boundary to the next: along the loop, and round the corner over edges that
/// have wet faces on both sides.
class BoundaryWalk {
 public:
  BoundaryWalk(const FaceNeighbours& neighbours, const std::vector<bool>& wet)
      : neighbours_(neighbours), wet_(wet) {}

  /// The dry face beyond a side, if there is one.
  std::optional<FaceId> beyond(const EdgeUse& side) const {
    const auto other = neighbours_.twin(side);
    return other && !wet_[index(other->face)] ? std::optional(other->face) : std::nullopt;
  }

  EdgeUse next(const EdgeUse& side) const {
    EdgeUse at = neighbours_.next(side);
    while (!beyond(at)) {
      const auto other = neighbours_.twin(at);
      at = neighbours_.next(other ? *other : at);  // a pole has no other side: pass it
    }
    return at;
  }

 private:
  const FaceNeighbours& neighbours_;
  const std::vector<bool>& wet_;
};

using Key = std::array<std::size_t, 3>;
Key key(const EdgeUse& use) { return {index(use.face), use.loop, use.position}; }

/// @param seen  sides already taken; the loop's are added.
Opening opening_from(const EdgeUse& start, const Geometry& geometry,
                     const FaceNeighbours& neighbours, const BoundaryWalk& walk,
                     std::set<Key>& seen) {
  Opening opening;
  opening.beyond = *walk.beyond(start);
  opening.vector_area = opening.centre = Eigen::Vector3d::Zero();
  double length = 0.0;
  for (EdgeUse at = start; seen.insert(key(at)).second; at = walk.next(at)) {
    const LoopEdge& side = neighbours.side(at);
    const CadEdge& edge = geometry.edge(side.edge);
    opening.edges.push_back(side.edge);
    // The wet faces' normals point into the cavity, and their boundary turns round them so that its
    // swept area points out of it.
    opening.vector_area += (side.forward ? 1.0 : -1.0) * edge.swept_area;
    opening.centre += edge.length * edge.centroid;
    length += edge.length;
  }
  opening.centre /= length;
  return opening;
}

}  // namespace

std::vector<Opening> openings_of(const Geometry& geometry, const FaceNeighbours& neighbours,
                                 const std::vector<bool>& wet) {
  const BoundaryWalk walk(neighbours, wet);
  std::vector<Opening> openings;
  std::set<Key> seen;
  for (const CadFace& face : geometry.faces) {
    if (!wet[index(face.id)]) {
      continue;
    }
    for (std::size_t loop = 0; loop < face.loops.size(); ++loop) {
      for (std::size_t i = 0; i < face.loops[loop].size(); ++i) {
        const EdgeUse start{face.id, loop, i};
        if (walk.beyond(start) && !seen.count(key(start))) {
          openings.push_back(opening_from(start, geometry, neighbours, walk, seen));
        }
      }
    }
  }
  const auto lowest = [](const Opening& o) {
    return *std::min_element(o.edges.begin(), o.edges.end());
  };
  std::sort(openings.begin(), openings.end(),
            [&](const Opening& a, const Opening& b) { return lowest(a) < lowest(b); });
  return openings;
}

double enclosed_volume(const Geometry& geometry, const std::vector<FaceId>& faces,
                       const std::vector<Opening>& openings) {
  double volume = 0.0;
  for (const FaceId face : faces) {
    volume -= geometry.face(face).cone_volume;
  }
  for (const Opening& opening : openings) {
    volume += opening.centre.dot(opening.vector_area) / 3.0;
  }
  return volume;
}

}  // namespace crossgrain
