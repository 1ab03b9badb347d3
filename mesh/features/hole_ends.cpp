// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/hole_ends.h"

#include <algorithm>
#include <cmath>

#include "mesh/geometry/surface_rays.h"

namespace crossgrain {
namespace {

bool belongs(const HoleWall& wall, FaceId face) {
  return std::binary_search(wall.faces.begin(), wall.faces.end(), face);
}

/// The edge farthest towards an end, and the face beyond it.
std::optional<FaceNeighbours::Neighbour> farthest_edge(const HoleWall& wall,
                                                       const Eigen::Vector3d& outward,
                                                       const Geometry& geometry,
                                                       const FaceNeighbours& neighbours) {
  std::optional<FaceNeighbours::Neighbour> farthest;
  const auto reach = [&](EdgeId edge) {
    return (geometry.edge(edge).centroid - wall.origin).dot(outward);
  };
  for (const FaceId face : wall.faces) {
    for (const auto& neighbour : neighbours.of(face)) {
      if (!belongs(wall, neighbour.face) &&
          (!farthest || reach(neighbour.edge) > reach(farthest->edge))) {
        farthest = neighbour;
      }
    }
  }
  return farthest;
}

/// How far the surface beyond an edge looks outward: a mouth's does, a floor's looks back.
double looks_outward(const FaceNeighbours::Neighbour& end, const Eigen::Vector3d& outward,
                     const Geometry& geometry) {
  const CadFace& face = geometry.face(end.face);
  const Eigen::Vector3d normal = normal_near(geometry, end.face, geometry.edge(end.edge).middle);
  constexpr double clear = 0.3;
  if (std::abs(normal.dot(outward)) > clear) {
    return normal.dot(outward);
  }
  // A fillet leaves the wall tangentially, so look at it as a whole.
  return face.vector_area.dot(outward) / face.area;
}

bool leads_on(const CadFace& face, const HoleWall& wall) {
  return (face.kind == SurfaceKind::cone || face.kind == SurfaceKind::torus) &&
         coaxial(wall.axis, wall.origin, face.axis, face.origin);
}

/// Past a chamfer, countersink or fillet: over its other circle.
std::optional<FaceNeighbours::Neighbour> past(const FaceNeighbours::Neighbour& end,
                                              const HoleWall& wall, const Geometry& geometry,
                                              const FaceNeighbours& neighbours) {
  const double here = geometry.edge(end.edge).circle_radius.value_or(wall.radius);
  const double along = wall.axis.dot(geometry.edge(end.edge).centroid);
  for (const auto& neighbour : neighbours.of(end.face)) {
    const CadEdge& edge = geometry.edge(neighbour.edge);
    // The halves of a chamfer meet in straight edges, and its near edge is the one come from.
    const bool other_circle =
        edge.circle_radius && !belongs(wall, neighbour.face) &&
        coaxial(wall.axis, wall.origin, edge.circle_axis, edge.circle_centre) &&
        (std::abs(*edge.circle_radius - here) > 1e-6 * here ||
         std::abs(wall.axis.dot(edge.centroid) - along) > 1e-6 * here);
    if (other_circle) {
      return neighbour;
    }
  }
  return std::nullopt;
}

}  // namespace

HoleEnd end_of(const HoleWall& wall, bool high, const Geometry& geometry,
               const FaceNeighbours& neighbours) {
  const Eigen::Vector3d outward = high ? wall.axis : Eigen::Vector3d(-wall.axis);
  HoleEnd end;
  end.along = high ? wall.high : wall.low;
  end.diameter = 2.0 * wall.radius;
  auto at = farthest_edge(wall, outward, geometry, neighbours);
  if (!at) {
    return end;
  }
  end.open = looks_outward(*at, outward, geometry) > 0.0;
  constexpr int most_steps = 3;  // a fillet, a chamfer and a fillet
  for (int step = 0; step < most_steps && leads_on(geometry.face(at->face), wall); ++step) {
    const auto further = past(*at, wall, geometry, neighbours);
    if (!further) {
      break;
    }
    at = further;
  }
  const CadEdge& edge = geometry.edge(at->edge);
  const CadFace& face = geometry.face(at->face);
  end.face = face.id;
  end.flat = face.kind == SurfaceKind::plane && std::abs(face.axis.dot(wall.axis)) > 1.0 - 1e-6;
  if (edge.circle_radius && coaxial(wall.axis, wall.origin, edge.circle_axis, edge.circle_centre)) {
    end.diameter = 2.0 * *edge.circle_radius;
    end.along = (edge.circle_centre - wall.origin).dot(wall.axis);
  }
  return end;
}

}  // namespace crossgrain
