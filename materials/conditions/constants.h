// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <utility>
#include <variant>

namespace crossgrain {

/// A number and the range it may lie in.
struct Ranged {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
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

using SolidConstants = std::variant<LayeredConstants, IsotropicConstants>;

/// Members by the card's keys, in its order. What a layered solid is judged by in tension in the
/// layer is the strength across the beads, whose key is Yt.
inline constexpr std::array<std::pair<const char*, Ranged LayeredConstants::*>, 13> layered_members{
    {{"E_layer", &LayeredConstants::E_layer},
     {"E_build", &LayeredConstants::E_build},
     {"nu_12", &LayeredConstants::nu_12},
     {"nu_13", &LayeredConstants::nu_13},
     {"G_build", &LayeredConstants::G_build},
     {"Yt", &LayeredConstants::Xt},
     {"Xc", &LayeredConstants::Xc},
     {"Zt", &LayeredConstants::Zt},
     {"Zc", &LayeredConstants::Zc},
     {"Sz", &LayeredConstants::Sz},
     {"density", &LayeredConstants::density},
     {"cte_layer", &LayeredConstants::cte_layer},
     {"cte_build", &LayeredConstants::cte_build}}};

/// The strength's key is yield or tensile.
inline constexpr std::array<std::pair<const char*, Ranged IsotropicConstants::*>, 5>
    isotropic_members{{{"E", &IsotropicConstants::E},
                       {"nu", &IsotropicConstants::nu},
                       {"strength", &IsotropicConstants::strength},
                       {"density", &IsotropicConstants::density},
                       {"cte", &IsotropicConstants::cte}}};

}  // namespace crossgrain
