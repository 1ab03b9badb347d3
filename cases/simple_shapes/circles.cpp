// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/circles.h"

#include <cmath>

namespace crossgrain {

std::optional<Circle> circle_of(const Geometry& geometry, const CadFace& face, std::size_t loop) {
  if (loop >= face.loops.size()) return std::nullopt;
  std::optional<Circle> circle;
  for (const LoopEdge& side : face.loops[loop]) {
    const CadEdge& edge = geometry.edge(side.edge);
    if (!edge.circle_radius) return std::nullopt;
    if (!circle) circle = Circle{edge.circle_centre, *edge.circle_radius};
    const double slack = 1e-3 * circle->radius;
    if ((edge.circle_centre - circle->centre).norm() > slack ||
        std::abs(*edge.circle_radius - circle->radius) > slack)
      return std::nullopt;
  }
  return circle;
}

}  // namespace crossgrain
