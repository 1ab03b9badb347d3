// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/static_solver.h"

#include <chrono>
#include <sstream>
#include <stdexcept>

#include "solver/linear_system/sparse_cholesky.h"
#include "solver/linear_system/stiffness_assembly.h"
#include "solver/supports/inertia_balance.h"
#include "solver/supports/reduced_unknowns.h"

namespace crossgrain {
namespace {

// A solution that leaves more is corrected once with its own residual.
constexpr double residual_worth_refining = 1e-11;
// One that leaves more after that is no solution. Round-off alone leaves 1e-12 in compact parts and
// 1e-4 in a bar a thousand times as long as thick, whose ends move far under little force.
constexpr double largest_residual = 1e-3;

class Stopwatch {
 public:
  double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
  }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

std::vector<NodeConstraint> checked(std::vector<NodeConstraint> constraints,
                                    const TetrahedronMesh& mesh) {
  std::vector<bool> seen(mesh.node_count(), false);
  for (const auto& [node, held] : constraints) {
    const auto place = "constraint at node " + std::to_string(node);
    if (node < 0 || node >= mesh.node_count())
      throw std::invalid_argument(place + ": the mesh has " + std::to_string(mesh.node_count()) +
                                  " nodes");
    if (seen[node]) throw std::invalid_argument(place + ": given twice; merge its directions");
    seen[node] = true;
    const Eigen::MatrixXd product = held.transpose() * held;
    if (!(held.cols() >= 1 && held.cols() <= 3 &&
          (product - Eigen::MatrixXd::Identity(held.cols(), held.cols())).norm() < 1e-10))
      throw std::invalid_argument(place + ": its directions are not orthonormal");
  }
  return constraints;
}

[[noreturn]] void refuse_residual(double residual) {
  std::ostringstream message;
  message << "the solution leaves a relative residual of " << residual
          << ": the stiffness matrix is too ill-conditioned";
  throw std::runtime_error(message.str());
}

/// Elimination order of the unknowns: node by node as the graph of nodes is dissected.
std::vector<std::int64_t> order_of_unknowns(const BlockMatrix& K, const ReducedUnknowns& unknowns) {
  std::vector<std::int64_t> order;
  for (auto node : dissection_order(K))
    for (auto u = unknowns.first()[node]; u < unknowns.first()[node + 1]; ++u) order.push_back(u);
  return order;
}

}  // namespace

struct StaticSolver::Impl {
  const TetrahedronMesh& mesh;
  std::vector<NodeConstraint> constraints;
  StiffnessAssembly assembly;
  std::vector<int> group_of_node;
  std::vector<RigidGroup> groups;
  ReducedUnknowns unknowns;
  /// For the residual: what the constraints alone leave, determinate holds not counted.
  ReducedUnknowns really_free;
  InertiaBalance inertia;
  LowerTriangle reduced;
  std::unique_ptr<SparseCholesky> cholesky;
  SolveReport report;

  Impl(const TetrahedronMesh& mesh_given, std::vector<NodeConstraint> given,
       const TetrahedronRule& rule, int threads)
      : mesh(mesh_given),
        constraints(checked(std::move(given), mesh)),
        assembly(mesh, rule, threads),
        group_of_node(connected_groups(mesh)),
        groups(rigid_groups(mesh, group_of_node, constraints)),
        unknowns(group_of_node, with_determinate_holds(mesh, group_of_node, groups, constraints)),
        really_free(group_of_node, constraints),
        inertia(mesh, group_of_node, groups) {
    report.method = "sparse Cholesky";
    report.unknowns = unknowns.count();
  }

  void refuse_indefinite(std::int64_t row) const {
    Eigen::Index node = 0;
    while (unknowns.first()[node + 1] <= row) ++node;
    std::ostringstream message;
    message << "the stiffness matrix is not positive definite at the node near ("
            << mesh.nodes.col(node).transpose().format(Eigen::IOFormat(6, 0, ", "))
            << ") mm: elements there hang by a point or an edge, or the material stores no energy";
    throw std::runtime_error(message.str());
  }

  void require_fits(const Eigen::MatrixXd& loads) const {
    if (!cholesky) throw std::logic_error("StaticSolver: set_material comes before solve");
    if (loads.rows() != mesh.unknowns())
      throw std::invalid_argument("a load has " + std::to_string(loads.rows()) +
                                  " entries, the mesh has " + std::to_string(mesh.unknowns()) +
                                  " unknowns");
    for (Eigen::Index c = 0; c < loads.cols(); ++c) {
      const auto place = "load " + std::to_string(c + 1);
      if (!loads.col(c).allFinite())
        throw std::invalid_argument(place + " has entries that are not finite numbers");
      for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
        if (group_of_node[i] < 0 && loads.col(c).segment<3>(3 * i) != Eigen::Vector3d::Zero())
          throw std::invalid_argument(place + " acts on a node that belongs to no element");
    }
  }

  /// Residual on the unknowns that constraints leave free, relative per load.
  Eigen::VectorXd relative_residuals(const Eigen::MatrixXd& loads,
                                     const Eigen::MatrixXd& residual) {
    const Eigen::VectorXd size = really_free.restricted(loads).colwise().norm();
    const Eigen::VectorXd left = really_free.restricted(residual).colwise().norm();
    return (size.array() > 0.0).select(left.cwiseQuotient(size), left);
  }
};

StaticSolver::StaticSolver(const TetrahedronMesh& mesh, std::vector<NodeConstraint> constraints,
                           int threads, const TetrahedronRule& rule) {
  const Stopwatch watch;
  impl_ = std::make_unique<Impl>(mesh, std::move(constraints), rule, threads);
  impl_->report.seconds_assembly = watch.seconds();
}

StaticSolver::~StaticSolver() = default;

void StaticSolver::set_material(const MaterialField& field) {
  auto& self = *impl_;
  const Stopwatch assembling;
  if (self.cholesky) self.report.seconds_assembly = 0.0;  // laying out the pattern counted before
  self.assembly.assemble(field);
  self.unknowns.reduce(self.assembly.matrix(), self.reduced);
  self.inertia.set_material(field);
  self.report.seconds_assembly += assembling.seconds();

  const Stopwatch factoring;
  if (!self.cholesky)
    self.cholesky = std::make_unique<SparseCholesky>(
        self.reduced, order_of_unknowns(self.assembly.matrix(), self.unknowns));
  const auto bad_row = self.cholesky->factorise(self.reduced);
  if (bad_row >= 0) self.refuse_indefinite(bad_row);
  self.report.seconds_factor = factoring.seconds();
}

double StaticSolver::require_balanced(const Eigen::VectorXd& load, const std::string& name) const {
  impl_->require_fits(load);
  return impl_->inertia.require_balanced(load, name);
}

Eigen::MatrixXd StaticSolver::solve(const Eigen::MatrixXd& loads, Unbalanced unbalanced) {
  auto& self = *impl_;
  self.require_fits(loads);
  if (loads.cols() == 0) return loads;
  const Stopwatch watch;
  Eigen::MatrixXd balanced = loads;
  self.report.unbalanced_force_fraction = 0.0;
  for (Eigen::Index c = 0; c < loads.cols(); ++c) {
    if (unbalanced == Unbalanced::refused)
      self.inertia.require_balanced(loads.col(c), "load " + std::to_string(c + 1));
    self.report.unbalanced_force_fraction =
        std::max(self.report.unbalanced_force_fraction, self.inertia.balance(balanced.col(c)));
  }

  const auto solved = [&](const Eigen::MatrixXd& f) {
    return self.unknowns.expanded(self.cholesky->solve(self.unknowns.restricted(f)));
  };
  Eigen::MatrixXd displacements = solved(balanced);
  const Eigen::MatrixXd residual = balanced - internal_forces(displacements);
  if (!(self.relative_residuals(balanced, residual).maxCoeff() <= residual_worth_refining))
    displacements += solved(residual);
  const Eigen::VectorXd left =
      self.relative_residuals(balanced, balanced - internal_forces(displacements));
  // maxCoeff may step over NaN.
  if (!displacements.allFinite() || !left.allFinite() || !(left.maxCoeff() <= largest_residual))
    refuse_residual(left.maxCoeff());
  for (Eigen::Index c = 0; c < loads.cols(); ++c)
    self.inertia.remove_rigid_motion(displacements.col(c));
  self.report.relative_residual = left.maxCoeff();
  self.report.seconds_solve = watch.seconds();
  return displacements;
}

Eigen::MatrixXd StaticSolver::internal_forces(const Eigen::MatrixXd& displacements) const {
  return impl_->assembly.matrix() * displacements;
}

const SolveReport& StaticSolver::report() const { return impl_->report; }

}  // namespace crossgrain
