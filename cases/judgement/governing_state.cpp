// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/governing_state.h"

#include <limits>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/verdict_sentence.h"

namespace crossgrain {
Eigen::Index site_of(const StressSites& sites, const ModeResult& place) {
  Eigen::Index best = 0;
  double least = std::numeric_limits<double>::infinity();
  for (Eigen::Index i = 0; i < sites.positions.cols(); ++i) {
    if (sites.body_names[index(sites.points[i].body)] != place.body) continue;
    const double distance = (sites.positions.col(i) - place.position).squaredNorm();
    if (!(distance < least)) continue;
    least = distance;
    best = i;
  }
  return best;
}

std::vector<double> GoverningState::at_limit(const LoadCase& judged) const {
  std::vector<double> counts;
  for (std::size_t i = 0; i < judged.held.size(); ++i)
    counts.push_back((held_apart ? 1.0 : factor) * judged.held[i] + factor * judged.scaling[i]);
  return counts;
}

StateStress::StateStress(const GoverningState& state, const JudgedModel& model,
                         const Loading& loading, const ElementarySolution& solution,
                         const MaterialField& field)
    : state_(state),
      model_(model),
      load_case_(loading.cases[state.load_case]),
      solution_(solution),
      field_(field),
      yardstick_(yardstick_of(model.materials, load_case_.strengths, MaterialSet::nominal,
                              model.targets.criterion)) {}

Vector6d StateStress::sum(const std::vector<double>& counts, Eigen::Index site) const {
  Vector6d stress = Vector6d::Zero();
  for (std::size_t i = 0; i < counts.size(); ++i)
    if (counts[i] != 0.0) stress += counts[i] * solution_.stress[i].col(site);
  return to_material(site) * stress;
}

Matrix6d StateStress::to_material(Eigen::Index site) const {
  return stress_rotation(field_.frame(model_.sites.points[site].tetrahedron, 0).transpose());
}

Vector6d StateStress::multiplied(Eigen::Index site) const {
  const Vector6d scaling = sum(load_case_.scaling, site);
  return state_.held_apart ? scaling : Vector6d(scaling + sum(load_case_.held, site));
}

Vector6d StateStress::held(Eigen::Index site) const {
  return state_.held_apart ? sum(load_case_.held, site) : Vector6d::Zero();
}

const Strength& StateStress::strength_at(Eigen::Index site) const {
  return yardstick_.strength_of_body[index(model_.sites.points[site].body)];
}

std::optional<double> StateStress::factor_at(Eigen::Index site) const {
  return load_multiplier(state_.mode, strength_at(site), held(site), multiplied(site));
}

std::optional<GoverningState> governing_state(const RunResult& result, const StressSites& sites) {
  const int number = least_case(result);
  // At a factor of 0 what is held is past the limit by itself: there is no state at the limit.
  if (number < 0 || !result.governing || !result.governing->factor.value.has_value() ||
      !(*result.governing->factor.value > 0.0))
    return std::nullopt;
  const CaseResult& worst = result.cases[number];
  const bool held_apart = worst.scaling_loads.applies && worst.scaling_loads.governing &&
                          is_less(worst.scaling_loads.factor.value, worst.all_loads.factor.value);
  return GoverningState{number, site_of(sites, *result.governing), result.governing->mode,
                        *result.governing->factor.value, held_apart};
}

}  // namespace crossgrain
