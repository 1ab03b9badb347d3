// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// @throws std::invalid_argument naming a modelled body whose faces do not close, and where.
void require_closed_bodies(const Geometry& geometry);

/// Implausible sizes (a factor is offered), no declared unit, sliver faces and tiny edges.
std::vector<std::string> geometry_warnings(const Geometry& geometry);

}  // namespace crossgrain
