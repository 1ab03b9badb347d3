// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/loads/loads.h"

namespace crossgrain {

/// Relative pressure of a stiff flat head or washer on its seat, 0 beside it: as a flat punch
/// presses, 1 / sqrt(1 - (r / R)^2), most at its rim (Johnson, Contact Mechanics, 1985, handbook
/// form), which holds for a ring round a hole, too: the edge of a hole is no edge of the punch.
/// The mean motion of the seat with these weights is that of the head, to second order in what the
/// pressure is off; with even weights it gives a tenth more.
/// @param middle  a point on the axis [mm]; @param axis unit; @param radius  of the head [mm]
ScalarOfPosition pressure_under_head(const Eigen::Vector3d& middle, const Eigen::Vector3d& axis,
                                     double radius);

}  // namespace crossgrain
