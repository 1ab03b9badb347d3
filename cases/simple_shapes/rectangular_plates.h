// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/plate_face.h"

namespace crossgrain {

/// Flat panels between walls or ribs on four sides, or on the long two of a duct; or within a seal.
/// A panel thicker than a quarter of its short side is none.
std::optional<Plate> rectangular_plate(const PressedBody& part, const CadFace& face);

}  // namespace crossgrain
