// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/body_materials.h"
#include "materials/conditions/constant_ends.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// One constant of one card at one end of its range, all others nominal.
struct ConstantVariation {
  std::string card;
  RangedConstant constant;
  RangeEnd end;
  double way;                         ///< to the end that a solid can go, as in `SolidAtEnds`
  std::vector<SolidMaterial> solids;  ///< by body; bodies of one card move together
};

/// Every ranged constant of the cards that meshed bodies are made of: its low end, then its high.
std::vector<ConstantVariation> constant_variations(const TetrahedronMesh& mesh,
                                                   const BodyMaterials& materials);

/// One of them. @param card, constant  by name.
ConstantVariation constant_variation(const std::string& card, const std::string& constant,
                                     RangeEnd end, const BodyMaterials& materials);

}  // namespace crossgrain
