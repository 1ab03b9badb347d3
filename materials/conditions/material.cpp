// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/material.h"

#include <algorithm>
#include <stdexcept>

#include "materials/conditions/estimates.h"
#include "materials/conditions/knock_downs.h"
#include "materials/conditions/solid_of_constants.h"

namespace crossgrain {
namespace {

constexpr double default_bead_width_mm = 0.45;  // a 0.4 mm nozzle; common practice, no source

std::map<std::string, CardValue> applying_values(const MaterialCard& card, Moisture moisture) {
  std::map<std::string, CardValue> values = card.dry;
  if (moisture == Moisture::conditioned)
    for (const auto& [key, value] : card.conditioned) values[key] = value;
  return values;
}

/// The constants with one end of every range in the nominal one's place.
SolidConstants at_end(SolidConstants constants, double Ranged::*end) {
  for_each_constant(constants, [&](const char*, Ranged& number) { number.value = number.*end; });
  return constants;
}

/// Move the Poisson's ratios of an end of the range towards the nominal ones until the solid is
/// admissible: ranges are independent, admissibility is not.
void clip_to_admissible(OrthotropicConstants& end, const OrthotropicConstants& nominal) {
  const OrthotropicConstants wish = end;
  for (int step = 0; step <= 20 && inadmissibility(end); ++step) {
    const double t = 1.0 - 0.05 * step;
    end.nu_12 = nominal.nu_12 + t * (wish.nu_12 - nominal.nu_12);
    end.nu_13 = nominal.nu_13 + t * (wish.nu_13 - nominal.nu_13);
    end.nu_23 = nominal.nu_23 + t * (wish.nu_23 - nominal.nu_23);
    // The layer stays isotropic.
    end.G_12 = end.E_1 / (2.0 * (1.0 + end.nu_12));
  }
}

void require_admissible_card(const MaterialCard& card, MaterialAtConditions& material) {
  const auto require = [&](const char* which, const OrthotropicConstants& constants) {
    if (const auto complaint = inadmissibility(constants))
      throw std::invalid_argument(card.file.string() + ": " + which + *complaint);
  };
  require("", material.nominal.elastic);
  clip_to_admissible(material.low.elastic, material.nominal.elastic);
  clip_to_admissible(material.high.elastic, material.nominal.elastic);
  require("low end of the ranges: ", material.low.elastic);
  require("high end of the ranges: ", material.high.elastic);
}

}  // namespace

MaterialAtConditions material_at(const MaterialCard& card, const ServiceConditions& conditions) {
  MaterialAtConditions material;
  material.card = card.name;
  material.title = card.title;
  material.knock_downs = knock_downs(card, conditions);
  const Kept strength = kept(material.knock_downs, "strength");
  const Kept modulus = kept(material.knock_downs, "modulus");

  const auto values = applying_values(card, conditions.moisture);
  if (card.kind == MaterialKind::layered)
    material.constants = layered_constants(card, values, material.assumptions);
  else
    material.constants = isotropic_constants(card, values, material.assumptions);
  const auto solid = [&](double Ranged::*end, double Kept::*left) {
    return solid_of(at_end(material.constants, end), card.kind, strength.*left, modulus.*left);
  };
  material.nominal = solid(&Ranged::value, &Kept::value);
  material.low = solid(&Ranged::low, &Kept::low);
  material.high = solid(&Ranged::high, &Kept::high);
  require_admissible_card(card, material);

  material.sustained_modulus_MPa =
      std::min(material.nominal.elastic.E_1, material.nominal.elastic.E_3);
  material.bead_width_mm = card.bead_width_mm.value_or(default_bead_width_mm);
  return material;
}

}  // namespace crossgrain
