// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/support_edges.h"

#include <algorithm>

#include "mesh/features/sharp_edges.h"

namespace crossgrain {
namespace {

constexpr double right_angle = 90.0;
constexpr double fixed_angle = 45.0;

bool is_among(const std::vector<FaceId>& faces, FaceId face) {
  return std::ranges::find(faces, face) != faces.end();
}

/// Of an edge's faces one is among `faces` and the other is free.
bool bounds(const CadEdge& edge, const std::vector<FaceId>& faces,
            const std::vector<FaceId>& held) {
  if (edge.faces.size() != 2) return false;
  const FaceId a = edge.faces[0], b = edge.faces[1];
  return (is_among(faces, a) && !is_among(held, b)) || (is_among(faces, b) && !is_among(held, a));
}

}  // namespace

std::vector<EdgeId> edges_without_limit(const Geometry& geometry, const std::vector<FaceId>& faces,
                                        const std::vector<FaceId>& held, HeldFace how) {
  // A mirror doubles the turn that still counts as smooth.
  const double harmless = how == HeldFace::sliding ? right_angle + 0.5 * smooth_turn : fixed_angle;
  std::vector<EdgeId> found;
  for (const CadEdge& edge : geometry.edges)
    if (bounds(edge, faces, held) && edge.material_angle > harmless) found.push_back(edge.id);
  return found;
}

}  // namespace crossgrain
