// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "materials/card_file/card.h"
#include "materials/conditions/constants.h"
#include "materials/conditions/material.h"

namespace crossgrain {

/// Fill in what a card leaves out by the rules of thumb in estimates.cpp, and note every number of
/// weak standing.
/// @param values  the card's numbers that apply (dry, or dry overlaid with conditioned).
/// @param assumptions  appended to.
LayeredConstants layered_constants(const MaterialCard& card,
                                   const std::map<std::string, CardValue>& values,
                                   std::vector<Assumption>& assumptions);
IsotropicConstants isotropic_constants(const MaterialCard& card,
                                       const std::map<std::string, CardValue>& values,
                                       std::vector<Assumption>& assumptions);

}  // namespace crossgrain
