// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/joint_solver.h"

#include <cmath>
#include <sstream>
#include <stdexcept>

#include "solver/interface/augmentation.h"
#include "solver/interface/fluid_in_pairs.h"
#include "solver/interface/joint_description.h"
#include "solver/interface/joint_iteration.h"

namespace crossgrain {
namespace {

Joint sound(Joint joint) {
  for (const auto& pair : joint.pairs) {
    try {
      require_sound(pair.law);
    } catch (const std::invalid_argument& error) {
      throw std::invalid_argument("\"" + pair.name + "\": " + error.what());
    }
    for (const auto& point : pair.points)
      if (!(point.stiffness > 0.0))
        throw std::logic_error("\"" + pair.name + "\": set_contact_stiffness comes first");
  }
  for (const auto& screw : joint.screws) require_sound(screw);
  return joint;
}

[[noreturn]] void refuse_penetration(double penetration) {
  std::ostringstream message;
  message << "faces that should only touch, or be tied, still miss each other by " << penetration
          << " of what one element behind them gives, however often it was made good; a finer mesh "
             "at these faces, or one of elements of like size on both, may help";
  throw std::runtime_error(message.str());
}

}  // namespace

struct JointSolver::Impl {
  const TetrahedronMesh& mesh;
  Joint joint;
  JointOptions options;
  JointSystem system;
  JointIteration iteration;
  FluidInPairs fluid;

  Impl(const TetrahedronMesh& mesh_given, StaticSolver& solver, Joint joint_given,
       const JointOptions& options_given)
      : mesh(mesh_given),
        joint(sound(std::move(joint_given))),
        options(options_given),
        system(mesh, joint),
        iteration(system, solver, options.steps_most),
        fluid(mesh, system) {}

  void require_fits(const JointLoad& load) const {
    if (load.forces.size() != mesh.unknowns())
      throw std::invalid_argument("a joint's load has " + std::to_string(load.forces.size()) +
                                  " entries, the mesh has " + std::to_string(mesh.unknowns()) +
                                  " unknowns");
    if (load.screws.size() != joint.screws.size())
      throw std::invalid_argument("a joint of " + std::to_string(joint.screws.size()) +
                                  " screws is given " + std::to_string(load.screws.size()) +
                                  " screws' commands");
    for (std::size_t s = 0; s < load.screws.size(); ++s)
      require_sound(load.screws[s], joint.screws[s]);
    if (!load.clearance_change.empty() && load.clearance_change.size() != joint.pairs.size())
      throw std::invalid_argument(
          "a joint of " + std::to_string(joint.pairs.size()) + " pairs is given " +
          std::to_string(load.clearance_change.size()) + " changes of clearance");
    for (const auto& [pressure, nodes] : load.fluids)
      if (!(pressure >= 0.0 && std::isfinite(pressure)))
        throw std::invalid_argument("a fluid's pressure in a joint is " + std::to_string(pressure) +
                                    " MPa; it must be zero or positive");
  }

  /// Newton's method and augmentation under forces that stay.
  void settle(const Eigen::VectorXd& forces, bool closed, JointSolution& solution) {
    auto& report = solution.report;
    for (int round = 0;; ++round) {
      const auto end = iteration.solve(forces, solution.displacement, closed && round == 0);
      report.solves += end.solves;
      report.residual = end.residual;
      const auto motion = system.motion(solution.displacement);
      report.penetration = penetration(system, motion);
      if (report.penetration <= options.penetration) return;
      // NaN comes here as well.
      if (round == options.augmentations_most) refuse_penetration(report.penetration);
      hold_tractions(system, motion);
      ++report.augmentations;
    }
  }

  void begin(const JointSolution* start, JointSolution& solution) {
    solution.displacement =
        start ? start->displacement : Eigen::VectorXd(Eigen::VectorXd::Zero(mesh.unknowns()));
    system.held.setZero();
    if (start) system.hold(start->pairs);
  }
};

JointSolver::JointSolver(const TetrahedronMesh& mesh, StaticSolver& solver, Joint joint,
                         const JointOptions& options)
    : impl_(std::make_unique<Impl>(mesh, solver, std::move(joint), options)) {}

JointSolver::~JointSolver() = default;

const Joint& JointSolver::joint() const { return impl_->joint; }

JointSolution JointSolver::solve(const JointLoad& load, const JointSolution* start) {
  auto& self = *impl_;
  self.require_fits(load);
  self.system.set_load(load);
  JointSolution solution;
  self.begin(start, solution);
  self.fluid.begin(load.fluids);
  Eigen::VectorXd forces = load.forces;
  do {
    ++solution.report.fluid_rounds;
    self.settle(forces, !start && solution.report.fluid_rounds == 1, solution);
    forces = load.forces;
  } while (self.fluid.creeps_on(self.system.motion(solution.displacement), forces));
  solution.forces =
      forces - load.forces + self.system.forces(self.system.motion(solution.displacement));
  describe(self.system, self.fluid.pressure(), solution);
  return solution;
}

ScrewCommand locked(const ScrewState& state, double expansion) {
  return {false, state.force, state.elongation, expansion};
}

}  // namespace crossgrain
