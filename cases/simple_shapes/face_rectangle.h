// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "cases/simple_shapes/face_patch.h"

namespace crossgrain {

/// A flat face's box: axes along the sides, u the longer.
struct Rectangle {
  Eigen::Vector3d centre, u, v;
  double half_u, half_v;
  Eigen::Vector3d at(double share_u, double share_v) const {
    return centre + share_u * half_u * u + share_v * half_v * v;
  }
};

/// The least box round a flat face; nothing if the face does not fill it.
std::optional<Rectangle> rectangle_of(const Geometry& geometry, const CadFace& face,
                                      const FacePatch& patch);

}  // namespace crossgrain
