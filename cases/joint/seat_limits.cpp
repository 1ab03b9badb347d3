// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seat_limits.h"

#include <algorithm>
#include <numbers>

#include "cases/joint/bearing.h"

namespace crossgrain {
namespace {

double compressive(const Strength& strength, bool along_build) {
  if (const auto* layered = std::get_if<LayeredStrength>(&strength)) {
    return along_build ? layered->Zc : layered->Xc;
  }
  if (const auto* ductile = std::get_if<DuctileStrength>(&strength)) return ductile->yield;
  return std::get<BrittleStrength>(strength).tensile;
}

double across_layers(const Strength& strength) {
  if (const auto* layered = std::get_if<LayeredStrength>(&strength)) return layered->Zt;
  return compressive(strength, true);
}

double shear(const Strength& strength) {
  if (const auto* layered = std::get_if<LayeredStrength>(&strength)) return layered->Sz;
  if (const auto* ductile = std::get_if<DuctileStrength>(&strength)) {
    return ductile->yield / std::numbers::sqrt3;
  }
  return std::get<BrittleStrength>(strength).tensile;
}

std::string_view card_key_across_layers(const Strength& strength) {
  if (std::holds_alternative<LayeredStrength>(strength)) return "Zt";
  return std::holds_alternative<DuctileStrength>(strength) ? "yield" : "tensile";
}

LimitStanding standing_of_card(Standing standing) {
  switch (standing) {
    case Standing::measured:
      return LimitStanding::given;
    case Standing::data_sheet:
      return LimitStanding::data_sheet;
    case Standing::memory:
      return LimitStanding::memory;
    case Standing::estimated:
      return LimitStanding::estimated;
  }
  return LimitStanding::estimated;
}

/// What is not among the assumptions was measured or is a data sheet's.
LimitStanding standing_of(std::string_view key, const MaterialAtConditions& material) {
  const auto assumed = std::ranges::find(material.assumptions, key, &Assumption::quantity);
  return standing_of_card(assumed == material.assumptions.end() ? Standing::data_sheet
                                                                : assumed->standing);
}

}  // namespace

JointLimit seat_bearing_limit(const Strength& short_term, bool along_build, double share,
                              bool share_given) {
  return {bearing_limit(compressive(short_term, along_build), share),
          share_given ? LimitStanding::given : LimitStanding::memory,
          "share of the short-term compressive strength under the head"};
}

JointLimit seat_tension_limit(const MaterialAtConditions& material) {
  const Strength& strength = material.nominal.strength;
  return {across_layers(strength), standing_of(card_key_across_layers(strength), material),
          "strength across the layers at the joint's conditions"};
}

ShearStrength seat_shear_strength(const MaterialAtConditions& material) {
  return {shear(material.nominal.strength), shear(material.low.strength),
          shear(material.high.strength)};
}

}  // namespace crossgrain
