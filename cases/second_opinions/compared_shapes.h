// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/loads/load_combination.h"
#include "cases/simple_shapes/simple_shape.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// The fields that textbook values are held against.
struct ComparedFields {
  const TetrahedronMesh& mesh;
  const std::vector<StressPoint>& points;
  const StressField& printed;    ///< of the part as it is
  const StressField& isotropic;  ///< of the same part with one stiffness in all directions
  double pressure;               ///< [MPa] in both
  double nu;                     ///< Poisson's ratio for the formulas
  bool other_loads;              ///< others act in the fields, too
};

/// Every shape's textbook values beside the field's. Equal shapes come once, as the one with the
/// greatest stress, with the faces of all. Places whose line leaves the mesh are left out.
std::vector<HandComparison> compare_shapes(const std::vector<SimpleShape>& shapes,
                                           const ComparedFields& fields);

}  // namespace crossgrain
