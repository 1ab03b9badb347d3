// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/stress/element_stress.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// Stress as its neighbours see it: round every corner of the mesh a quadratic polynomial fitted to
/// the elements' stress at their four-point Gauss rule, body by body (superconvergent patch
/// recovery, Zienkiewicz and Zhu, Int. J. Numer. Meth. Engng 33 (1992) 1331-1364); in the middle of
/// an edge the mean of its ends' polynomials. Nearer to the true stress than the elements' own, so
/// that the difference estimates the error.
/// @param fields  several stress fields of one mesh: a fit's matrix is made once for all.
/// @return for each field 6 x points [MPa], global axes.
std::vector<Eigen::Matrix<double, 6, Eigen::Dynamic>> recovered_over_patches(
    const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
    const std::vector<const ElementStress*>& fields);

}  // namespace crossgrain
