// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

// How messages speak of geometry.

std::string words(SurfaceKind kind);  ///< "cylinder"
/// "0.0123", "12346": so many significant digits, no zeros after them, and no exponent between a
/// millionth and a thousand million. NaN and infinity are written as such.
std::string words(double number, int digits = 4);
std::string words(const Eigen::Vector3d& v);  ///< "(1, 2, 3)"
std::string words(const Body& body);          ///< "2 "lid"", or "2"
std::string words(const CadFace& face);       ///< "face 7 (cylinder near (1, 2, 3) mm)"
/// "face 3 is", "faces 3, 4, 5 are": at most five by number.
std::string words(const std::vector<FaceId>& faces);

}  // namespace crossgrain
