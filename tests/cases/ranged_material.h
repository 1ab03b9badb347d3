// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "materials/conditions/material.h"
#include "materials/conditions/solid_of_constants.h"

namespace crossgrain::testing {

inline Ranged exactly(double value) { return {value, value, value}; }

/// No number has a range; nothing contracts sideways, so that bars are bars.
inline LayeredConstants known() {
  return {.E_layer = exactly(2000),
          .E_build = exactly(1500),
          .nu_12 = exactly(0),
          .nu_13 = exactly(0),
          .G_build = exactly(600),
          .Xt = exactly(80),
          .Xc = exactly(90),
          .Zt = exactly(20),
          .Zc = exactly(70),
          .Sz = exactly(30),
          .density = exactly(1e-9),
          .cte_layer = exactly(0),
          .cte_build = exactly(0)};
}

inline MaterialAtConditions material_of(const std::string& card,
                                        const LayeredConstants& constants) {
  const auto end = [&](double Ranged::*which) {
    SolidConstants moved = constants;
    for_each_constant(moved, [&](const char*, Ranged& number) { number.value = number.*which; });
    return solid_of(moved, MaterialKind::layered, 1.0, 1.0);
  };
  MaterialAtConditions material{};
  material.card = card;
  material.constants = constants;
  material.nominal = end(&Ranged::value);
  material.low = end(&Ranged::low);
  material.high = end(&Ranged::high);
  return material;
}

}  // namespace crossgrain::testing
