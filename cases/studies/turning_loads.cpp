// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/turning_loads.h"

#include "cases/loads/joint_states.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

using Eigen::Index;

TurningLoads::TurningLoads(const JudgedModel& model, const Loading& loading,
                           const MaterialField& field, const std::vector<BodyId>& bodies,
                           const JointReference* reference)
    : model_(model),
      loading_(loading),
      field_(field),
      reference_(reference),
      turning_(frames_of_bodies(field, model.mesh, bodies)),
      counts_(loading.loads.size(), 0) {
  for (const LoadCase& load_case : loading.cases)
    for (std::size_t i = 0; i < counts_.size(); ++i)
      if (load_case.held[i] != 0.0 || load_case.scaling[i] != 0.0) count(i);
  if (reference)
    for (const ElasticScrew& screw : loading.joined->joint.screws)
      screws_.push_back(screw_motions(screw));
  for (std::size_t i = 0; i < loading.loads.size(); ++i) {
    if (loading.loads[i].temperature_change.size() == 0) {
      loads_.emplace_back(forces(i, loading));
    } else {
      loads_.emplace_back([&](const Eigen::Vector3d& n) {
        Loading along = loading;
        update_field_loads(along, model.mesh, field_along(n));
        return forces(i, along);
      });
    }
    if (reference && locked_in(i)) loads_.back().add_told(reference->joints[i].by_lock());
  }
}

void TurningLoads::count(std::size_t load) {
  counts_[load] = 1;
  if (const auto locked = locked_in(load)) count(*locked);
}

std::optional<std::size_t> TurningLoads::locked_in(std::size_t load) const {
  if (!reference_) return std::nullopt;
  return loading_.joined->states[load].locked_in;
}

Eigen::VectorXd TurningLoads::forces(std::size_t load, const Loading& loading) const {
  if (!reference_) return loading.loads[load].nodal_forces;
  return outside_load(*loading.joined, loading.joined->states[load]).nodal_forces +
         reference_->joints[load].forces;
}

MaterialField TurningLoads::field_along(const Eigen::Vector3d& direction) const {
  return with_frames_along(field_, turning_, direction);
}

StiffnessAdditions TurningLoads::additions(std::size_t load) const {
  return reference_ ? reference_->joints[load].stiffness : StiffnessAdditions{};
}

Eigen::MatrixXd TurningLoads::elongations(const Eigen::MatrixXd& displacements) const {
  Eigen::MatrixXd elongations(std::ssize(screws_), displacements.cols());
  for (Index s = 0; s < elongations.rows(); ++s)
    for (Index c = 0; c < elongations.cols(); ++c)
      elongations(s, c) = along(screws_[s][0], displacements.col(c));
  return elongations;
}

Eigen::VectorXd TurningLoads::reference_elongations(std::size_t load) const {
  Eigen::VectorXd elongations(std::ssize(screws_));
  for (Index s = 0; s < elongations.size(); ++s)
    elongations[s] = reference_->solution.joint_states[load].screws[s].elongation;
  return elongations;
}

Eigen::MatrixXd TurningLoads::solve(StaticSolver& solver, const Eigen::Vector3d& direction,
                                    const Eigen::MatrixXd& start, double tolerance) const {
  solver.set_material(field_along(direction));
  Eigen::MatrixXd forces(start.rows(), start.cols());
  if (!reference_) {
    for (std::size_t i = 0; i < size(); ++i)
      forces.col(static_cast<Index>(i)) = loads_[i].parts() * loads_[i].weights(direction);
    return solver.solve(forces, Unbalanced::left_to_inertia, &start, tolerance);
  }
  // The joint's forces may be a thousand times what turning changes: solved for is the change, and
  // to the tolerance of what drives it.
  const Eigen::MatrixXd& before = reference_->solution.displacement;
  forces = -solver.internal_forces(before);
  Eigen::MatrixXd answers = Eigen::MatrixXd::Zero(start.rows(), start.cols());
  for (std::size_t i = 0; i < size(); ++i) {
    if (!counts(i)) continue;
    const auto column = static_cast<Index>(i);
    const StiffnessAdditions& joint = reference_->joints[i].stiffness;
    Eigen::VectorXd longer;
    if (const auto locked = locked_in(i))
      longer =
          elongations(answers.col(static_cast<Index>(*locked))) - reference_elongations(*locked);
    const Eigen::VectorXd drives = forces.col(column) - added_forces(joint, before.col(column)) +
                                   loads_[i].parts() * loads_[i].weights(direction, longer);
    const Eigen::MatrixXd begin = start.col(column) - before.col(column);
    solver.set_additions(joint);
    answers.col(column) =
        before.col(column) + solver.solve(drives, Unbalanced::left_to_inertia, &begin, tolerance);
  }
  return answers;
}

}  // namespace crossgrain
