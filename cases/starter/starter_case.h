// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/features/features.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// A first case file for a part: commented TOML that `read_case` takes as it is, with guesses of
/// cavity, ports, screws, gasket and support, each marked "check this".
/// @param step_file  as the case file is to name it.
/// @param card       a material card's name or path.
std::string starter_case(const Geometry& geometry, const Features& features,
                         const std::string& step_file, const std::string& card);

}  // namespace crossgrain
