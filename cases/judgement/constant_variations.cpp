// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/constant_variations.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace crossgrain {

std::vector<ConstantVariation> constant_variations(const TetrahedronMesh& mesh,
                                                   const BodyMaterials& materials) {
  std::vector<char> is_meshed(materials.service.size(), 0);
  for (const BodyId body : mesh.body_of_tetrahedron) is_meshed[index(body)] = 1;
  std::set<std::string> cards;
  std::vector<ConstantVariation> found;
  for (std::size_t body = 0; body < is_meshed.size(); ++body) {
    const MaterialAtConditions& material = materials.service[body];
    if (!is_meshed[body] || !cards.insert(material.card).second) continue;
    for (const RangedConstant& constant : ranged_constants(material))
      for (const RangeEnd end : {RangeEnd::low, RangeEnd::high})
        found.push_back(constant_variation(material.card, constant.name, end, materials));
  }
  return found;
}

ConstantVariation constant_variation(const std::string& card, const std::string& constant,
                                     RangeEnd end, const BodyMaterials& materials) {
  ConstantVariation variation{
      card, {}, end, 1.0, solid_materials(materials.service, MaterialSet::nominal)};
  for (std::size_t body = 0; body < materials.service.size(); ++body) {
    const MaterialAtConditions& material = materials.service[body];
    if (material.card != card) continue;
    const std::vector<RangedConstant> constants = ranged_constants(material);
    const auto moved = std::ranges::find(constants, constant, &RangedConstant::name);
    if (moved == constants.end())
      throw std::logic_error("'" + card + "' has no range of '" + constant + "'");
    std::vector<RangeEnd> ends(constants.size(), RangeEnd::value);
    ends[static_cast<std::size_t>(moved - constants.begin())] = end;
    auto [solid, way] = solid_at_ends(material, ends);
    variation.solids[body] = std::move(solid);
    variation.constant = *moved;
    variation.way = way;
  }
  return variation;
}

}  // namespace crossgrain
