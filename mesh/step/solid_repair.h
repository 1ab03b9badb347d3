// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <string>
#include <vector>

#include "mesh/step/step_document.h"

namespace crossgrain {

/// Make the document's solids fit to be numbered: surfaces are sewn to solids if the file has none,
/// solids that are inside out are turned, faces that two solids share are given to each, and strays
/// are dropped. Good solids are left as they are: healing loses them now and then.
/// @param warnings  receives a sentence for each of these.
/// @throws std::invalid_argument naming the file and the remedy if there is no solid to be had.
void make_sound_solids(StepDocument& document, const std::string& file,
                       std::vector<std::string>& warnings);

}  // namespace crossgrain
