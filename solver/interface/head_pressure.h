// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/loads/loads.h"

namespace crossgrain {

/// Relative pressure of a flat head or washer on its seat, 0 beside it: half of it even, half as a
/// stiff punch presses, 1 / sqrt(1 - (r / R)^2) (Johnson, Contact Mechanics, 1985, handbook form;
/// on a ring, too, for the edge of a hole is no edge of the punch). Steel on plastic moves as a
/// stiff punch does; but washers bend and plastic yields under a rim, so that stress there is not
/// that high. The mean motion of the seat with these weights is 2 to 4 % more than under a stiff
/// head, with even ones 12 to 15 %.
/// @param middle  a point on the axis [mm]; @param axis unit; @param radius  of the head [mm]
ScalarOfPosition pressure_under_head(const Eigen::Vector3d& middle, const Eigen::Vector3d& axis,
                                     double radius);

}  // namespace crossgrain
