// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// A widening at a hole's mouth, or the flat ring round it on which a screw head sits.
struct Seat {
  FaceId face;
  double inner_diameter;                 ///< [mm]
  std::optional<double> outer_diameter;  ///< of a counterbore's floor; none on an open face [mm]
};

/// A cylindrical hole in a body.
struct Hole {
  int id;  ///< from 1, in order of faces
  BodyId body;
  double diameter;        ///< [mm]
  Eigen::Vector3d axis;   ///< unit, out of the mouth; for a through hole, out of the end with the
                          ///< seat, else towards +
  Eigen::Vector3d mouth;  ///< where the axis leaves the body [mm]
  double depth;           ///< along the cylinder [mm]
  bool through;
  std::vector<FaceId> wall;     ///< the cylindrical face or its halves
  std::optional<FaceId> floor;  ///< of a blind hole
  std::optional<Seat> seat;
  std::optional<double> counterbore_diameter;
  double counterbore_depth = 0.0;
};

/// Equal parallel holes: a ring about an axis, or a row.
struct HolePattern {
  std::vector<int> holes;
  double diameter;
  bool ring;
  Eigen::Vector3d centre;  ///< of the ring [mm]
  Eigen::Vector3d axis;
  double ring_diameter = 0.0;
  double pitch = 0.0;  ///< distance between neighbours [mm]
};

struct Features {
  std::vector<Hole> holes;
  std::vector<HolePattern> patterns;
};

/// Find holes, their seats and patterns. Never fails: what is not recognised is not listed.
Features find_features(const Geometry& geometry);

}  // namespace crossgrain
