// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "mesh/features/wetted_surface.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// What the leading pressure's fluid touches; none if the case chose that pressure's faces in
/// another way.
std::optional<WettedSurface> pressurised_cavity(const PreparedCase& prepared);

/// Faces that no support material can be reached on: those of closed cavities and of every wetted
/// surface.
std::vector<FaceId> cavity_faces(const PreparedCase& prepared);

}  // namespace crossgrain
