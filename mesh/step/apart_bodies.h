// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/import_options.h"
#include "mesh/step/step_document.h"

namespace crossgrain {

/// The pair in which two bodies are kept apart, in either order; none: they are glued.
const KeptApart* kept_apart(const std::vector<KeptApart>& apart, BodyId a, BodyId b);

/// Refuse pairs of bodies that there are not, and bodies kept apart that lie deeper in each other
/// than the pair's interference.
/// @throws std::invalid_argument naming both, how much they overlap and the remedy.
void require_apart(const std::vector<KeptApart>& apart, const std::vector<LabelledSolid>& solids,
                   const Geometry& geometry);

}  // namespace crossgrain
