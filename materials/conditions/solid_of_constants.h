// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/conditions/material.h"

namespace crossgrain {

/// Call take(key of a card, number) for every constant, in the order of a card.
template <class Constants, class Take>
void for_each_constant(Constants& constants, const Take& take) {
  if (auto* layered = std::get_if<LayeredConstants>(&constants))
    for (const auto& [key, member] : layered_members) take(key, layered->*member);
  else
    for (const auto& [key, member] : isotropic_members)
      take(key, std::get<IsotropicConstants>(constants).*member);
}

/// The solid of constants as knock-downs leave it; of each number `value` counts.
SolidMaterial solid_of(const SolidConstants& constants, MaterialKind kind, double strength_kept,
                       double modulus_kept);

}  // namespace crossgrain
