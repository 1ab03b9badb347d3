// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/balance.h"

#include <Eigen/Geometry>
#include <map>

namespace crossgrain {
namespace {

using Directions = Eigen::Matrix<double, 3, Eigen::Dynamic, 0, 3, 3>;

/// The part of a nodal force along directions that no earlier support holds at that node.
class HeldForces {
 public:
  Eigen::Vector3d claim(const NodeConstraint& constraint, const Eigen::Vector3d& force) {
    auto& claimed = claimed_[constraint.node];
    Eigen::Vector3d held = Eigen::Vector3d::Zero();
    for (const Eigen::Vector3d direction : constraint.held.colwise()) {
      Eigen::Vector3d rest = direction;
      for (const Eigen::Vector3d earlier : claimed.colwise()) rest -= earlier.dot(rest) * earlier;
      if (claimed.cols() == 3 || !(rest.norm() > 1e-6)) continue;
      rest.normalize();
      claimed.conservativeResize(3, claimed.cols() + 1);
      claimed.rightCols<1>() = rest;
      held += rest.dot(force) * rest;
    }
    return held;
  }

 private:
  std::map<int, Directions> claimed_;
};

SupportReaction reaction_of(const TetrahedronMesh& mesh, const Support& support,
                            const Eigen::VectorXd& unanswered, HeldForces& held) {
  SupportReaction reaction;
  reaction.name = support.name;
  reaction.force.setZero();
  reaction.moment.setZero();
  for (const auto& constraint : constraints_of(mesh, {support})) {
    const Eigen::Vector3d force =
        held.claim(constraint, unanswered.segment<3>(3 * Eigen::Index{constraint.node}));
    reaction.force += force;
    reaction.moment += mesh.nodes.col(constraint.node).cross(force);
  }
  return reaction;
}

/// What is left of force and moment, as fractions of the load's own size.
struct Imbalance {
  double force = 0.0;
  double moment = 0.0;
};

Imbalance imbalance(const TetrahedronMesh& mesh, const Eigen::VectorXd& load,
                    const Eigen::VectorXd& answered) {
  const Eigen::Vector3d centre = mesh.nodes.rowwise().mean();
  const auto rest = resultant(mesh, load + answered, centre);
  double force_size = 0.0;
  double moment_size = 0.0;
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    const double force = load.segment<3>(3 * i).norm();
    force_size += force;
    moment_size += force * (mesh.nodes.col(i) - centre).norm();
  }
  if (force_size == 0.0) return {};
  return {rest.force.norm() / force_size, rest.moment.norm() / moment_size};
}

/// Larger of two that lets NaN through.
double worse(double a, double b) { return b <= a ? a : b; }

/// The part of K u - f that acts along held directions, or all of it on a part that is free to
/// move: there inertia answers, at every node.
Eigen::VectorXd answered_by_supports(const TetrahedronMesh& mesh,
                                     const std::vector<NodeConstraint>& constraints, bool is_free,
                                     const Eigen::VectorXd& unanswered) {
  if (is_free) return unanswered;
  Eigen::VectorXd answered = Eigen::VectorXd::Zero(mesh.unknowns());
  for (const auto& constraint : constraints) {
    const auto first = 3 * Eigen::Index{constraint.node};
    const Eigen::Vector3d at_node = unanswered.segment<3>(first);
    for (const Eigen::Vector3d direction : constraint.held.colwise()) {
      answered.segment<3>(first) += direction.dot(at_node) * direction;
    }
  }
  return answered;
}

}  // namespace

std::vector<SupportReaction> support_reactions(const TetrahedronMesh& mesh,
                                               const std::vector<Support>& supports,
                                               const CombinedCase& combined,
                                               const StaticSolver& solver,
                                               const std::string& load_case) {
  const Eigen::VectorXd unanswered =
      solver.internal_forces(combined.displacement) - combined.nodal_forces;
  HeldForces held;
  std::vector<SupportReaction> reactions;
  for (const auto& support : supports) {
    reactions.push_back(reaction_of(mesh, support, unanswered, held));
    reactions.back().load_case = load_case;
  }
  return reactions;
}

BalanceReport check_balance(const TetrahedronMesh& mesh, const Loading& loading,
                            const ElementarySolution& solution, const StaticSolver& solver,
                            const MeshReport& mesh_report) {
  BalanceReport report;
  report.force_error = report.moment_error = 0.0;
  const Eigen::MatrixXd loads = load_matrix(loading);
  const Eigen::MatrixXd unanswered = solver.internal_forces(solution.displacement) - loads;
  const auto constraints = constraints_of(mesh, loading.supports);
  const bool is_free = free_rigid_motions(mesh, constraints).cols() > 0;
  for (Eigen::Index i = 0; i < loads.cols(); ++i) {
    const auto rest = imbalance(
        mesh, loads.col(i), answered_by_supports(mesh, constraints, is_free, unanswered.col(i)));
    report.force_error = worse(report.force_error, rest.force);
    report.moment_error = worse(report.moment_error, rest.moment);
  }
  report.residual = solver.report().relative_residual;
  report.energy_error = solver.report().energy_error;
  report.carried_by_inertia = solution.carried_by_inertia;
  report.volume_error =
      std::abs(mesh_report.volume_mm3 - mesh_report.cad_volume_mm3) / mesh_report.cad_volume_mm3;
  return report;
}

}  // namespace crossgrain
