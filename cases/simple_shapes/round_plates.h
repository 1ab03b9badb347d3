// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/plate_face.h"

namespace crossgrain {

/// Flat round bottoms and covers: a disc between the walls that stand round it, or within a seal.
/// Rings are none, nor is a disc thicker than half its radius.
std::optional<Plate> round_plate(const PressedBody& part, const CadFace& face);

}  // namespace crossgrain
