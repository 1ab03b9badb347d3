// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "materials/card_file/card.h"
#include "materials/conditions/material.h"

namespace crossgrain {

/// A number and the range it may lie in.
struct Ranged {
  double value;
  double low;
  double high;
};

/// Everything known or estimated of a layered solid at 23 degC, short-term. Units as in CardKey.
struct LayeredConstants {
  Ranged E_layer, E_build, nu_12, nu_13, G_build;
  Ranged Xt;  ///< the strength that the default material is judged by: across the beads
  Ranged Xc, Zt, Zc, Sz;
  Ranged density, cte_layer, cte_build;
};

/// The same of an isotropic solid; `strength` is yield or tensile.
struct IsotropicConstants {
  Ranged E, nu, strength, density, cte;
};

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
