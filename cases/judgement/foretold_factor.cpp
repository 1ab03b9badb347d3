// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/foretold_factor.h"

#include <algorithm>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/factor_slope.h"
#include "solver/error/stress_functional.h"

namespace crossgrain {
namespace {

// A first order in the constants needs no more; what is left of it is far below the mesh's error.
constexpr double fine_enough = 1e-6;

/// Loads whose answers tell of every part what each place counts, solved for with the joint of each
/// part; parts in which screws were locked come after those that feel it.
std::vector<Eigen::VectorXd> counted_of_parts(const std::vector<LimitPart>& parts, double factor,
                                              const Eigen::VectorXd& functional,
                                              StaticSolver& solver) {
  std::vector<Eigen::VectorXd> loads, counted;
  for (const LimitPart& part : parts) loads.push_back(part.at_limit(factor) * functional);
  for (std::size_t p = 0; p < parts.size(); ++p) {
    solver.set_additions(parts[p].joint->stiffness);
    counted.push_back(
        solver.solve(loads[p], Unbalanced::left_to_inertia, nullptr, fine_enough).col(0));
    if (!parts[p].locked_in) continue;
    for (const auto& [shares, stiffness] : parts[p].joint->screws) {
      const double pull = stiffness * along(shares, counted[p]);
      for (const auto& [node, direction] : shares)
        loads[*parts[p].locked_in].segment<3>(3 * Eigen::Index{node}) += pull * direction;
    }
  }
  return counted;
}

using Displacements = std::array<Eigen::VectorXd, 2>;

Eigen::Matrix2d work_of_joint(const FrozenJoint& joint, const Displacements& u) {
  Eigen::Matrix2d work;
  for (int b = 0; b < 2; ++b) {
    const Eigen::VectorXd forces = added_forces(joint.stiffness, u[b]);
    for (int a = 0; a < 2; ++a) work(a, b) = u[a].dot(forces);
  }
  return work;
}

Eigen::Matrix2d work_by_locking(const FrozenJoint& joint, const Displacements& u,
                                const Displacements& when_locked) {
  Eigen::Matrix2d sum = Eigen::Matrix2d::Zero();
  const auto of_both = [](const auto& shares, const Displacements& both) {
    return Eigen::Vector2d(along(shares, both[0]), along(shares, both[1]));
  };
  for (const auto& [shares, stiffness] : joint.screws)
    sum += stiffness * of_both(shares, u) * of_both(shares, when_locked).transpose();
  return sum;
}

}  // namespace

ForetoldFactor::ForetoldFactor(const GoverningState& state, const JudgedModel& model,
                               const Loading& loading, const ElementarySolution& solution,
                               const MaterialField& field, const Eigen::VectorXd& counted,
                               StaticSolver& solver)
    : model_(model), loading_(loading), field_(field), factor_(state.factor) {
  if (state.held_apart) most_ = loading.cases[state.load_case].largest_lambda;
  const StressQuantity quantity{
      model.sites.fit.shares(state.site),
      factor_slope(state, StateStress(state, model, loading, solution, field))};
  const std::vector<LimitPart> parts = limit_parts(state, model.mesh, loading, solution);
  std::vector<Eigen::VectorXd> counts(parts.size(), counted);
  if (loading.joined)
    counts = counted_of_parts(
        parts, state.factor,
        stress_functional(model.mesh, field, quantity.shares, quantity.direction), solver);
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const LimitPart& part = parts[p];
    const Displacements both{part.state.displacement, counts[p]};
    Eigen::Matrix2d by_joint = Eigen::Matrix2d::Zero(), by_locking = by_joint;
    if (part.joint) by_joint = work_of_joint(*part.joint, both);
    if (part.locked_in)
      by_locking = work_by_locking(
          *part.joint, both, {parts[*part.locked_in].state.displacement, counts[*part.locked_in]});
    parts_.push_back({part.held,
                      part.growing,
                      part.loads,
                      both,
                      {model.mesh,
                       field,
                       {part.state.displacement, part.state.temperature_change},
                       counts[p],
                       quantity,
                       by_joint},
                      part.locked_in,
                      by_locking});
  }
  nominal_ = counts_with(field.materials);
}

/// Weights change with the density.
Eigen::Vector2d ForetoldFactor::other_work(const Part& part,
                                           const std::vector<SolidMaterial>& solids) const {
  Eigen::Vector2d work = Eigen::Vector2d::Zero();
  if (std::ranges::equal(solids, field_.materials, {}, &SolidMaterial::density,
                         &SolidMaterial::density))
    return work;
  MaterialField other = field_;
  other.materials = solids;
  const std::vector<ElementaryLoad>& loads =
      loading_.joined ? loading_.joined->acting : loading_.loads;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    if (part.loads[i] == 0.0 || !loads[i].acceleration) continue;
    const Eigen::VectorXd change =
        body_load(model_.mesh, other, *loads[i].acceleration) - loads[i].nodal_forces;
    for (int v = 0; v < 2; ++v) work[v] += part.loads[i] * change.dot(part.displacements[v]);
  }
  return work;
}

ForetoldFactor::Counts ForetoldFactor::counts_with(const std::vector<SolidMaterial>& solids) const {
  Counts counts;
  std::vector<Eigen::Vector2d> parts(parts_.size());
  for (std::size_t p = parts_.size(); p-- > 0;) {
    const Part& part = parts_[p];
    Eigen::Vector2d work = other_work(part, solids);
    if (part.locked_in)
      work += part.by_locking * (parts[*part.locked_in] - Eigen::Vector2d::UnitX());
    const auto answer = part.answer.with(solids, work);
    parts[p] = answer.parts;
    counts.held += part.held * answer.quantity;
    counts.growing += part.growing * answer.quantity;
  }
  return counts;
}

std::optional<double> ForetoldFactor::with(const std::vector<SolidMaterial>& solids) const {
  const Counts other = counts_with(solids);
  // Stress lowers the factor: what grows counts less than nothing.
  if (!(other.growing < 0.0)) return most_;
  const double at_limit = nominal_.held + factor_ * nominal_.growing;
  return least(std::max(0.0, (at_limit - other.held) / other.growing), most_);
}

}  // namespace crossgrain
