// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/interface/flat_pieces.h"
#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Quadrature points where two pieces that face each other lie within reach of one another.
/// @param reach  [mm]
void overlap_pieces(const TetrahedronMesh& mesh, const FlatPiece& first, const FlatPiece& second,
                    double reach, const std::function<void(const InterfacePoint&)>& visit);

}  // namespace crossgrain
