// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/pressed_faces.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// Bores with a wall round them, pressed from one side: the wall by rays square to the axis, at the
/// place farthest from ends, steps and holes. A bore in a block counts with its least wall, as a
/// hand calculation would have it, unless that is so thick that the bore is a mere hole in it.
std::vector<SimpleShape> cylinder_shapes(const PressedBody& part);

}  // namespace crossgrain
