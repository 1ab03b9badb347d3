// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/elements/material_field.h"
#include "solver/stress/element_stress.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// A stress field as the elements have it and as it was recovered; the difference stands for its
/// error.
struct EstimatedStress {
  ElementStress elements;
  Eigen::Matrix<double, 6, Eigen::Dynamic> recovered;  ///< 6 x points [MPa]
};

/// For each element the integral of the one error's stress times the other error's strain [N mm].
/// With a field twice: the square of the energy norm of its error. With the field of a load and
/// that of a quantity's own load: what the error makes of the quantity (Prudhomme and Oden, Comput.
/// Methods Appl. Mech. Engrg 176 (1999) 313-331).
Eigen::VectorXd error_energy(const TetrahedronMesh& mesh, const MaterialField& field,
                             const std::vector<StressPoint>& points, const EstimatedStress& one,
                             const EstimatedStress& other);

}  // namespace crossgrain
