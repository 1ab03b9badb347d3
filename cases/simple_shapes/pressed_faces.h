// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/surface_rays.h"

namespace crossgrain {

/// What the finders of shapes look at: one body, and which of its faces a fluid presses on.
struct PressedBody {
  const Geometry& geometry;
  const Body& body;
  const SurfaceRays& rays;    ///< of that body alone
  std::vector<bool> pressed;  ///< by face

  bool is_pressed(FaceId face) const { return pressed[index(face)]; }
};

}  // namespace crossgrain
