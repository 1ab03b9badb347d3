// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/simple_shapes/simple_shape.h"
#include "mesh/features/features.h"

namespace crossgrain {

/// A flat ring round a bore, drilled on a circle: a flange.
struct FlangeRing {
  BodyId body;
  std::vector<FaceId> faces;  ///< that it was recognised by
  double inner_radius;        ///< of the bore [mm]
  double outer_radius;        ///< [mm]
  double height;              ///< of the section, along the axis [mm]
  /// Straight through the ring from its face, midway between two screws, as near to the bore as the
  /// section is a rectangle; pulled round the ring.
  WallLine place;
  double place_radius;                   ///< [mm]
  std::optional<SimpleShape> tube = {};  ///< that stands on its inner side
};

/// Where to look for one.
struct RingFace {
  BodyId body;
  FaceId face;                     ///< a flat one with round edges: a seal's
  Eigen::Vector3d centre, axis;    ///< of it; unit, out of the body [mm]
  double radius;                   ///< on the face [mm]
  const std::vector<Hole>& holes;  ///< on a circle round it
};

/// The flange that a face belongs to: rays along the face find bore and edge alike all round, rays
/// into it one height. Nothing where there is no bore, as in a lid, or the section is no rectangle
/// outside the tube's wall.
/// @param shapes  of all bodies, the tube among them.
std::optional<FlangeRing> flange_ring(const Geometry& geometry, const RingFace& at,
                                      const std::vector<SimpleShape>& shapes);

}  // namespace crossgrain
