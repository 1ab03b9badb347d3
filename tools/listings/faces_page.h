// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/listings/geometry_text.h"

namespace crossgrain {

/// A page of its own to click faces on: the part's surface, its edges, its holes and cavities, and
/// the line for a case file that chooses the faces clicked.
std::string faces_page(const Inspection& inspection);

}  // namespace crossgrain
