// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/constant_ends.h"

#include <algorithm>
#include <cassert>

#include "materials/card_file/card_keys.h"
#include "materials/conditions/knock_downs.h"
#include "materials/conditions/solid_of_constants.h"

namespace crossgrain {
namespace {

constexpr int steps_back = 20;  // from ends that no solid can have towards the nominal numbers

MaterialKind kind_of(const MaterialAtConditions& material) {
  if (std::holds_alternative<LayeredConstants>(material.constants)) return MaterialKind::layered;
  return std::holds_alternative<DuctileStrength>(material.nominal.strength)
             ? MaterialKind::isotropic_ductile
             : MaterialKind::isotropic_brittle;
}

bool has_range(const Ranged& number) { return number.low < number.high; }

bool is_strength(std::string_view key) {
  constexpr std::string_view strengths[] = {"Yt", "Xc", "Zt", "Zc", "Sz", "yield", "tensile"};
  return std::ranges::find(strengths, key) != std::end(strengths);
}

/// Call take(number) for everything that has a range, in the order of `ranged_constants`.
template <class TakeConstant, class TakeKnockDown>
void for_each_ranged(SolidConstants& constants, std::vector<KnockDown>& knock_downs,
                     const TakeConstant& take_constant, const TakeKnockDown& take_knock_down) {
  for_each_constant(constants, [&](std::string_view key, Ranged& number) {
    if (has_range(number)) take_constant(key, number);
  });
  for (KnockDown& knock_down : knock_downs)
    if (knock_down.low < knock_down.high) take_knock_down(knock_down);
}

double moved(double value, double low, double high, RangeEnd end, double way) {
  const double goal = end == RangeEnd::low ? low : end == RangeEnd::high ? high : value;
  return value + way * (goal - value);
}

SolidMaterial solid_on_the_way(const MaterialAtConditions& material,
                               const std::vector<RangeEnd>& ends, double way) {
  SolidConstants constants = material.constants;
  std::vector<KnockDown> knock_downs = material.knock_downs;
  auto end = ends.begin();
  for_each_ranged(
      constants, knock_downs,
      [&](std::string_view, Ranged& number) {
        number.value = moved(number.value, number.low, number.high, *end++, way);
      },
      [&](KnockDown& factor) {
        factor.value = moved(factor.value, factor.low, factor.high, *end++, way);
      });
  assert(end == ends.end());
  return solid_of(constants, kind_of(material), kept(knock_downs, "strength").value,
                  kept(knock_downs, "modulus").value);
}

}  // namespace

std::vector<RangedConstant> ranged_constants(const MaterialAtConditions& material) {
  const MaterialKind kind = kind_of(material);
  std::vector<RangedConstant> found;
  SolidConstants constants = material.constants;
  std::vector<KnockDown> knock_downs = material.knock_downs;
  for_each_ranged(
      constants, knock_downs,
      [&](std::string_view member, const Ranged& number) {
        const std::string_view strength =
            kind == MaterialKind::isotropic_ductile ? "yield" : "tensile";
        const CardKey& key = *find_key(kind, member == "strength" ? strength : member);
        found.push_back({std::string(key.name), std::string(key.meaning), std::string(key.unit),
                         number, is_strength(key.name)});
      },
      [&](const KnockDown& factor) {
        found.push_back({factor.applies + " kept (" + factor.cause + ")",
                         "",
                         "-",
                         {factor.value, factor.low, factor.high},
                         factor.applies == "strength"});
      });
  return found;
}

SolidAtEnds solid_at_ends(const MaterialAtConditions& material, const std::vector<RangeEnd>& ends) {
  for (int step = 0; step < steps_back; ++step) {
    const double way = 1.0 - static_cast<double>(step) / steps_back;
    SolidMaterial solid = solid_on_the_way(material, ends, way);
    if (!inadmissibility(solid.elastic)) return {std::move(solid), way};
  }
  return {material.nominal, 0.0};
}

}  // namespace crossgrain
