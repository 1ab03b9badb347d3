// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/body_materials.h"

namespace crossgrain {
namespace {

const SolidMaterial& end_of(const MaterialAtConditions& material, MaterialSet set) {
  switch (set) {
    case MaterialSet::low:
      return material.low;
    case MaterialSet::high:
      return material.high;
    default:
      return material.nominal;
  }
}

}  // namespace

ServiceConditions proof_conditions(const ServiceConditions& service, const Targets& targets) {
  ServiceConditions proof;  // 23 degC, one cycle
  proof.moisture = service.moisture;
  proof.duration_s = targets.proof_duration_s;
  return proof;
}

std::vector<SolidMaterial> solid_materials(const std::vector<MaterialAtConditions>& materials,
                                           MaterialSet set) {
  std::vector<SolidMaterial> solids;
  for (const auto& material : materials) solids.push_back(end_of(material, set));
  return solids;
}

Yardstick yardstick_of(const BodyMaterials& materials, StrengthBasis basis, MaterialSet set,
                       Criterion criterion) {
  Yardstick yardstick;
  yardstick.criterion = criterion;
  for (const auto& material : basis == StrengthBasis::proof ? materials.proof : materials.service) {
    yardstick.strength_of_body.push_back(end_of(material, set).strength);
  }
  return yardstick;
}

}  // namespace crossgrain
