// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "mesh/features/features.h"
#include "mesh/features/wetted_surface.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

struct ChosenFaces {
  std::vector<FaceId> faces;
  std::vector<Hole> holes;              ///< for a choice of holes, in id order
  std::optional<WettedSurface> wetted;  ///< for a wetted choice
};

/// @throws std::invalid_argument naming the place in the case file, the choice as written, what was
/// found instead and the
///         remedy, if nothing or another number than `count` is found.
ChosenFaces choose_faces(const Geometry& geometry, const Features& features,
                         const FaceChoice& choice);

}  // namespace crossgrain
