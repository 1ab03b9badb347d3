// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/features/features.h"
#include "mesh/features/touching_faces.h"
#include "mesh/features/wetted_surface.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// What `inspect` knows of a part.
struct Inspection {
  std::string file;  ///< that it was asked about
  Geometry geometry;
  Features features;
  std::vector<TouchingFaces> touching;  ///< or with room for a gasket between them
  std::vector<WettedSurface> cavities;  ///< closed ones
  std::optional<WettedSurface> wetted;  ///< by the fluid that was asked for
};

/// The listing for a reader: warnings first, then bodies, faces, those of them that meet, holes,
/// patterns, cavities.
std::string geometry_text(const Inspection& inspection);

/// The same as JSON text; lengths in mm, key names carry their units.
std::string geometry_json(const Inspection& inspection);

}  // namespace crossgrain
