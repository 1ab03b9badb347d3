// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/pressed_faces.h"
#include "cases/simple_shapes/simple_shape.h"

namespace crossgrain {

/// Whether the part itself closes one end of a cylinder: the fluid's thrust on all that it presses
/// beyond the cylinder's place is that on the whole bore, away from the place (inwards, if the
/// fluid is outside). A plug in a port is no part of it.
bool has_closed_end(const PressedBody& part, const SimpleShape& cylinder,
                    const Eigen::Vector3d& axis);

}  // namespace crossgrain
