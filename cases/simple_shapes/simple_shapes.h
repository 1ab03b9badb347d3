// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// Pieces of the modelled bodies that a textbook has a formula for: cylindrical shells, spheres and
/// domes, flat round and rectangular plates. Never fails: what is not recognised is not listed.
/// @param pressed  faces that the fluid presses on.
std::vector<SimpleShape> simple_shapes(const Geometry& geometry,
                                       const std::vector<FaceId>& pressed);

}  // namespace crossgrain
