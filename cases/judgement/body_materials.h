// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/yardstick.h"
#include "cases/loads/load_cases.h"

namespace crossgrain {

/// Materials of every body, as service and as a proof test find them.
struct BodyMaterials {
  std::vector<MaterialAtConditions> service;  ///< by body index
  std::vector<MaterialAtConditions> proof;    ///< at 23 degC, for the proof's duration
};

/// The middle or one end of the ranges that estimated constants have.
enum class MaterialSet { nominal, low, high };

/// Conditions of a proof test: 23 degC, the moisture of service, the proof's duration, one cycle.
ServiceConditions proof_conditions(const ServiceConditions& service, const Targets& targets);

/// What the solver needs of each body: elastic constants of that set.
std::vector<SolidMaterial> solid_materials(const std::vector<MaterialAtConditions>& materials,
                                           MaterialSet set);

/// What the judge needs of each body: strengths of that set.
Yardstick yardstick_of(const BodyMaterials& materials, StrengthBasis basis, MaterialSet set,
                       Criterion criterion);

}  // namespace crossgrain
