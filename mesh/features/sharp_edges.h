// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

enum class EdgeKind {
  inner,   ///< re-entrant: in linear elasticity the stress there has no limit
  outer,   ///< the stress there stays finite
  smooth,  ///< the faces meet tangentially
};

/// Faces that turn by less than this at an edge meet smoothly [deg]: so much do fillets and
/// approximated surfaces miss their tangents. Common practice, no source.
inline constexpr double smooth_turn = 10.0;

EdgeKind kind_of(const CadEdge& edge);

struct NearEdge {
  EdgeId edge;
  double distance;  ///< [mm]
};

/// From a point to the nearest of an edge [mm].
double distance_to(const CadEdge& edge, const Eigen::Vector3d& point);

/// Of these edges the one of a body that is nearest to a point.
/// @return nothing if none lies within `within` [mm].
std::optional<NearEdge> nearest_of(const Geometry& geometry, const std::vector<EdgeId>& edges,
                                   BodyId body, const Eigen::Vector3d& point, double within);

/// The inner edge of a body that is nearest to a point.
/// @return nothing if none lies within `within` [mm].
std::optional<NearEdge> nearest_inner_edge(const Geometry& geometry, BodyId body,
                                           const Eigen::Vector3d& point, double within);

}  // namespace crossgrain
