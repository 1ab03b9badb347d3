// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/features/features.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

// What a part has to choose from, in words, for the messages of choices that find nothing or too
// much. Bodies that are not modelled are left out.

std::string bodies_present(const Geometry& geometry);  ///< "1 "bowl", 2 "lid""
/// "8 of 6.4 mm along z, 1 of 24 mm along x"
std::string holes_present(const Geometry& geometry, const Features& features);
/// "flat faces look to +z at 0, 12 mm; -z at 5 mm"; the directions of the axes only.
std::string planes_present(const Geometry& geometry);
/// "0, 12 mm"
std::string positions_along(const Geometry& geometry, const std::vector<FaceId>& planes,
                            const Eigen::Vector3d& normal);
std::string names_present(const Geometry& geometry);    ///< "there are 'inlet', 'outlet'"
std::string colours_present(const Geometry& geometry);  ///< "there are #336699 (2 faces)"

std::string words_for(const Hole& hole);               ///< "hole 3 at (1, 2, 3) mm"
std::string words_for_axis(const Eigen::Vector3d& v);  ///< "z" or "(0.6, 0, 0.8)", either sense
std::string listed(const std::vector<Hole>& holes);
std::string listed(const Geometry& geometry, const std::vector<FaceId>& faces);

/// "#cc3300"
std::string hexadecimal(const std::array<double, 3>& colour);

}  // namespace crossgrain
