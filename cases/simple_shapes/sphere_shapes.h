// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/pressed_faces.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// Hollow spheres and domes with one wall, pressed from one side. Rounded corners are none: their
/// radius is no more than twice the wall.
std::vector<SimpleShape> sphere_shapes(const PressedBody& part);

}  // namespace crossgrain
