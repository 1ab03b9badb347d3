// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/quantity_error.h"

#include <utility>

#include "solver/error/patch_recovery.h"

namespace crossgrain {
namespace {

// On a bent plate and a sphere of one or two layers the parts' sum alone was exceeded, by 1.1 at
// most where the answer is of use.
constexpr double kept_in_hand = 1.25;

}  // namespace

QuantityError estimate_quantity_error(const TetrahedronMesh& mesh, const MaterialField& field,
                                      const std::vector<StressPoint>& points,
                                      const LoadedState& state, const Eigen::VectorXd& counted,
                                      bool resolved) {
  EstimatedStress loaded{element_stress(mesh, field, state.displacement, state.temperature_change),
                         {}};
  EstimatedStress counting{element_stress(mesh, field, counted), {}};
  auto recovered = recovered_over_patches(mesh, points, {&loaded.elements, &counting.elements});
  loaded.recovered = std::move(recovered[0]);
  counting.recovered = std::move(recovered[1]);

  QuantityError error;
  error.energy_shares = error_energy(mesh, field, points, loaded, loaded);
  if (resolved) {
    error.quantity_shares =
        kept_in_hand * error_energy(mesh, field, points, loaded, counting).cwiseAbs();
  } else {
    const Eigen::VectorXd of_counting = error_energy(mesh, field, points, counting, counting);
    error.quantity_shares = error.energy_shares.cwiseProduct(of_counting).cwiseSqrt();
  }
  return error;
}

}  // namespace crossgrain
