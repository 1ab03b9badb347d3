// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/material.h"

#include <algorithm>
#include <stdexcept>

#include "materials/conditions/estimates.h"
#include "materials/conditions/knock_downs.h"

namespace crossgrain {
namespace {

constexpr double default_bead_width_mm = 0.45;  // a 0.4 mm nozzle; common practice, no source

std::map<std::string, CardValue> applying_values(const MaterialCard& card, Moisture moisture) {
  std::map<std::string, CardValue> values = card.dry;
  if (moisture == Moisture::conditioned)
    for (const auto& [key, value] : card.conditioned) values[key] = value;
  return values;
}

/// One end of every range: a pointer to member picks nominal, low or high throughout.
template <typename Whole>
using End = double Whole::*;

SolidMaterial layered_end(const LayeredConstants& c, End<Ranged> end, double strength_kept,
                          double modulus_kept) {
  const TransverselyIsotropicConstants elastic{.E_layer = c.E_layer.*end * modulus_kept,
                                               .E_build = c.E_build.*end * modulus_kept,
                                               .nu_12 = c.nu_12.*end,
                                               .nu_13 = c.nu_13.*end,
                                               .G_build = c.G_build.*end * modulus_kept};
  return {.elastic = orthotropic(elastic),
          .thermal_expansion = {c.cte_layer.*end, c.cte_layer.*end, c.cte_build.*end},
          .density = c.density.*end,
          .strength = LayeredStrength{.Xt = c.Xt.*end * strength_kept,
                                      .Xc = c.Xc.*end * strength_kept,
                                      .Zt = c.Zt.*end * strength_kept,
                                      .Zc = c.Zc.*end * strength_kept,
                                      .Sz = c.Sz.*end * strength_kept}};
}

SolidMaterial isotropic_end(const IsotropicConstants& c, MaterialKind kind, End<Ranged> end,
                            double strength_kept, double modulus_kept) {
  const double strength = c.strength.*end * strength_kept;
  SolidMaterial material{.elastic = isotropic(c.E.*end * modulus_kept, c.nu.*end),
                         .thermal_expansion = Eigen::Vector3d::Constant(c.cte.*end),
                         .density = c.density.*end,
                         .strength = DuctileStrength{strength}};
  if (kind == MaterialKind::isotropic_brittle) material.strength = BrittleStrength{strength};
  return material;
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

void fill_layered(const MaterialCard& card, const std::map<std::string, CardValue>& values,
                  const Kept& strength, const Kept& modulus, MaterialAtConditions& material) {
  const LayeredConstants c = layered_constants(card, values, material.assumptions);
  material.nominal = layered_end(c, &Ranged::value, strength.value, modulus.value);
  material.low = layered_end(c, &Ranged::low, strength.low, modulus.low);
  material.high = layered_end(c, &Ranged::high, strength.high, modulus.high);
}

void fill_isotropic(const MaterialCard& card, const std::map<std::string, CardValue>& values,
                    const Kept& strength, const Kept& modulus, MaterialAtConditions& material) {
  const IsotropicConstants c = isotropic_constants(card, values, material.assumptions);
  material.nominal = isotropic_end(c, card.kind, &Ranged::value, strength.value, modulus.value);
  material.low = isotropic_end(c, card.kind, &Ranged::low, strength.low, modulus.low);
  material.high = isotropic_end(c, card.kind, &Ranged::high, strength.high, modulus.high);
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
    fill_layered(card, values, strength, modulus, material);
  else
    fill_isotropic(card, values, strength, modulus, material);
  require_admissible_card(card, material);

  material.sustained_modulus_MPa =
      std::min(material.nominal.elastic.E_1, material.nominal.elastic.E_3);
  material.bead_width_mm = card.bead_width_mm.value_or(default_bead_width_mm);
  return material;
}

}  // namespace crossgrain
