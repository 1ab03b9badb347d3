// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/features/features.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

// How a starter case writes what it found on a part.

/// A TOML string, whatever is in it.
std::string quoted(const std::string& text);

/// "12.7 mm" in quotes.
std::string quoted_length(double length);

/// ["1 mm", "2 mm", "3 mm"]
std::string written_point(const Eigen::Vector3d& point);

/// "+z" in quotes, or [0.6, 0, 0.8].
std::string written_direction(const Eigen::Vector3d& direction);

/// The choice that best survives an edit of the part: { name = ... }, { plane = ..., at = ... }, or
/// { ids = [...] } as the last resort.
/// @param narrow  further keys: "" or ", body = \"1\"".
std::string written_choice(const Geometry& geometry, const CadFace& face,
                           const std::string& narrow);

/// The same for a face alone: by its id if others lie in the same plane.
std::string written_choice_of_one(const Geometry& geometry, const CadFace& face,
                                  const std::string& narrow);

/// { hole = ..., axis = ... } without its closing brace.
std::string written_hole(double diameter, const Eigen::Vector3d& axis, const std::string& narrow);

}  // namespace crossgrain
