// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Give bodies that have the name of a modelled one of another file their file's stem in front
/// ("lid/part"; "lid-2/part" if two files share it, or one is read twice), and a nameless one the
/// stem alone if it is the only body of its file. Names that one file gives twice stay as they are.
void tell_names_apart(Geometry& geometry);

/// Leave out the bodies of a file that are not among those wanted; none wanted: keep all.
/// @throws std::invalid_argument if no body of the file has a name, or several have.
void choose_modelled(Geometry& geometry, std::size_t file, const std::vector<std::string>& wanted);

}  // namespace crossgrain
