// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/card_file/card_keys.h"

#include <map>

namespace crossgrain {
namespace {

constexpr CardKey density{"density", Dimension::density, Bound::positive,
                          false,     "tonne/mm^3",       "density"};

const std::vector<CardKey> layered_keys{
    {"E_layer", Dimension::pressure, Bound::positive, true, "MPa", "modulus in the layer (XY)"},
    {"E_build", Dimension::pressure, Bound::positive, false, "MPa",
     "modulus along the build direction (Z)"},
    {"nu_12", Dimension::fraction, Bound::poisson, false, "-", "Poisson's ratio in the layer"},
    {"nu_13", Dimension::fraction, Bound::poisson, false, "-",
     "Poisson's ratio, stress in the layer, strain along the build direction"},
    {"G_build", Dimension::pressure, Bound::positive, false, "MPa",
     "shear modulus between layers (XZ, YZ)"},
    {"Xt", Dimension::pressure, Bound::positive, true, "MPa",
     "tensile strength in the layer, beads along the load (XY)"},
    {"Yt", Dimension::pressure, Bound::positive, false, "MPa",
     "tensile strength in the layer, across the beads"},
    {"Xc", Dimension::pressure, Bound::positive, false, "MPa", "compressive strength in the layer"},
    {"Zt", Dimension::pressure, Bound::positive, false, "MPa",
     "tensile strength along the build direction (Z)"},
    {"Zc", Dimension::pressure, Bound::positive, false, "MPa",
     "compressive strength along the build direction"},
    {"Sz", Dimension::pressure, Bound::positive, false, "MPa", "shear strength between layers"},
    density,
    {"cte_layer", Dimension::thermal_expansion, Bound::any, false, "1/K",
     "thermal expansion in the layer"},
    {"cte_build", Dimension::thermal_expansion, Bound::any, false, "1/K",
     "thermal expansion along the build direction"},
};

std::vector<CardKey> isotropic_keys(const CardKey& strength) {
  return {{"E", Dimension::pressure, Bound::positive, true, "MPa", "Young's modulus"},
          {"nu", Dimension::fraction, Bound::poisson, false, "-", "Poisson's ratio"},
          strength,
          density,
          {"cte", Dimension::thermal_expansion, Bound::any, false, "1/K", "thermal expansion"}};
}

const std::vector<CardKey> ductile_keys =
    isotropic_keys({"yield", Dimension::pressure, Bound::positive, true, "MPa", "yield strength"});
const std::vector<CardKey> brittle_keys = isotropic_keys(
    {"tensile", Dimension::pressure, Bound::positive, true, "MPa", "tensile strength"});

const std::map<std::string_view, std::string_view> ambiguous_keys{
    {"nu", "write nu_12 (in the layer) and nu_13 (stress in the layer, strain along the build)"},
    {"nu_21", "in a layer without a direction it equals nu_12, write nu_12"},
    {"nu_23", "in a layer without a direction it equals nu_13, write nu_13"},
    {"E", "write E_layer (XY) and E_build (Z)"},
    {"modulus", "write E_layer (XY) and E_build (Z)"},
    {"G", "write G_build (between layers); the one in the layer follows from E_layer and nu_12"},
    {"strength", "write Xt (XY) and Zt (Z)"},
    {"tensile", "write Xt (XY) and Zt (Z)"},
    {"yield", "write Xt (XY) and Zt (Z)"},
    {"X", "write Xt (tension) or Xc (compression)"},
    {"Y", "write Yt (tension across the beads)"},
    {"Z", "write Zt (tension) or Zc (compression)"},
    {"S", "write Sz (shear between layers)"},
    {"cte", "write cte_layer and cte_build"},
};

}  // namespace

const std::vector<CardKey>& keys_of(MaterialKind kind) {
  if (kind == MaterialKind::isotropic_ductile) return ductile_keys;
  if (kind == MaterialKind::isotropic_brittle) return brittle_keys;
  return layered_keys;
}

const CardKey* find_key(MaterialKind kind, std::string_view name) {
  for (const CardKey& key : keys_of(kind))
    if (key.name == name) return &key;
  return nullptr;
}

std::optional<std::string> remedy_for_ambiguous_key(std::string_view name) {
  const auto found = ambiguous_keys.find(name);
  if (found == ambiguous_keys.end()) return std::nullopt;
  return std::string(found->second);
}

}  // namespace crossgrain
