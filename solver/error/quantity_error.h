// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/error/error_energy.h"

namespace crossgrain {

/// A displacement and the temperature change that it answers.
struct LoadedState {
  const Eigen::VectorXd& displacement;        ///< unknowns [mm]
  const Eigen::VectorXd& temperature_change;  ///< nodes [K]; empty: none
};

/// How far the mesh may lead a state and a quantity of it astray.
struct QuantityError {
  Eigen::VectorXd energy_shares;    ///< per element: squared energy norm of the error [N mm]
  Eigen::VectorXd quantity_shares;  ///< per element, not negative; the quantity may be off by
                                    ///< their sum
};

/// By stress recovered over patches, and the quantity's own load: the displacement under it tells
/// how much each place counts (Prudhomme and Oden, Comput. Methods Appl. Mech. Engrg 176 (1999)
/// 313-331). The error's parts are summed without their signs: with signs they cancel to about a
/// fifth of the true error on benchmarks, since an element's own error is smallest where it is
/// sampled. What holds on them is in tests/VERIFICATION.md.
/// @param counted   displacement under `stress_functional` of the quantity, same supports.
/// @param resolved  whether elements are short against what the quantity is taken over, or the
///                  stress there is smooth. If not, only the sizes of both errors are used, without
///                  regard to how they lie to each other.
QuantityError estimate_quantity_error(const TetrahedronMesh& mesh, const MaterialField& field,
                                      const std::vector<StressPoint>& points,
                                      const LoadedState& state, const Eigen::VectorXd& counted,
                                      bool resolved);

}  // namespace crossgrain
