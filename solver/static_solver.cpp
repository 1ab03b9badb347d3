// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/static_solver.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <sstream>
#include <stdexcept>

#include "solver/blocks/memory.h"
#include "solver/elements/parallel.h"
#include "solver/elements/stiffness_spectrum.h"
#include "solver/kernels/kernels.h"
#include "solver/linear_system/linear_solver.h"
#include "solver/supports/brought_to_rest.h"
#include "solver/supports/determinate_holds.h"
#include "solver/supports/inertia_balance.h"

namespace crossgrain {
namespace {

// Measured on the filter bowl: below this a complete factor is ready before the cycle has paid off.
constexpr Eigen::Index largest_direct = 40'000;
// Below this threads wait for each other longer than they work.
constexpr Eigen::Index fewest_nodes_for_threads = 5'000;
// Measured on the filter bowl: at a ratio of 8 an old coarse factor takes twice as many iterations,
// by the power law that gives half as many again at 3, and making a new one takes the time of five
// or six of some fifteen.
constexpr double widest_spectrum_for_old_factor = 3.0;
// What leaves more is no solution. Round-off alone leaves 1e-12 in compact parts and 1e-4 in a bar
// a thousand times as long as thick, whose ends move far under little force.
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

FreeDirections free_directions(const NodeOrder& order, const std::vector<int>& body_of_node,
                               const std::vector<NodeConstraint>& constraints) {
  std::vector<FreeDirections::HeldNode> held;
  for (const auto& [node, directions] : constraints)
    if (body_of_node[node] >= 0)
      held.push_back(
          {order.rank[node], Eigen::Matrix3d::Identity() - directions * directions.transpose()});
  for (std::size_t node = 0; node < body_of_node.size(); ++node)
    if (body_of_node[node] < 0) held.push_back({order.rank[node], Eigen::Matrix3d::Zero()});
  return {std::ssize(body_of_node), std::move(held)};
}

void require_sound(const StiffnessAdditions& additions, const std::vector<int>& body_of_node) {
  const auto require_node = [&](int node) {
    if (node < 0 || node >= std::ssize(body_of_node) || body_of_node[node] < 0)
      throw std::invalid_argument("an added stiffness names node " + std::to_string(node) +
                                  ", which belongs to no element");
  };
  for (const auto& spring : additions.springs) {
    bool fine = spring.stiffness >= 0.0 && std::isfinite(spring.stiffness);
    for (const auto& share : spring.shares) {
      fine = fine && share.direction.allFinite();
      require_node(share.node);
    }
    if (!fine) throw std::invalid_argument("an added spring is negative or not finite");
  }
  for (const auto& block : additions.blocks) {
    if (!block.stiffness.allFinite())
      throw std::invalid_argument("an added stiffness block is not finite");
    require_node(block.i);
    require_node(block.j);
  }
}

[[noreturn]] void refuse_residual(double residual, const std::string& trouble) {
  std::ostringstream message;
  message << "the solution leaves a relative residual of " << residual
          << ": the stiffness matrix is too ill-conditioned (" << trouble << ")";
  throw std::runtime_error(message.str());
}

}  // namespace

struct StaticSolver::Impl {
  const TetrahedronMesh& mesh;
  SolverOptions options;
  int threads;
  std::vector<NodeConstraint> constraints;
  StiffnessAssembly assembly;
  RigidMotions rigid;
  std::vector<NodeConstraint> holds;  ///< the constraints and what holds free motions
  FreeDirections free;
  std::optional<InertiaBalance> inertia;
  std::unique_ptr<LinearSolver> solver;
  std::optional<MaterialField> field;
  std::optional<MaterialField> factored_field;  ///< that the coarse factor was made for
  AdditionsByRank additions;
  std::string gave_up;  ///< what was tried before, in words
  SolveReport report;

  Impl(const TetrahedronMesh& mesh_given, std::vector<NodeConstraint> given,
       const SolverOptions& options_given, const TetrahedronRule& rule)
      : mesh(mesh_given),
        options(options_given),
        threads(mesh.node_count() < fewest_nodes_for_threads ? 1 : thread_count(options.threads)),
        constraints(checked(std::move(given), mesh)),
        assembly(mesh, rule, threads),
        rigid(rigid_motions(mesh, constraints, {})),
        holds(with_determinate_holds(mesh, rigid, constraints)),
        free(free_directions(assembly.order(), rigid.body_of_node, holds)),
        inertia(std::in_place, mesh, rigid) {
    report.unknowns = free.count();
  }

  bool starts_direct() const {
    return options.method == SolverMethod::direct ||
           (options.method == SolverMethod::automatic && report.unknowns <= largest_direct);
  }

  void use(const LinearSolver::Way& way) {
    solver = std::make_unique<LinearSolver>(assembly, free, way, threads);
  }

  void make_ready(bool keep_coarse) {
    const auto bad_rank = solver->make_ready(additions, keep_coarse);
    if (bad_rank >= 0) refuse_indefinite(assembly.order().node[bad_rank]);
    report.method = solver->method() + gave_up;
  }

  /// Other motions are free, so that others have to be held.
  void free_anew(RigidMotions other) {
    const bool direct = solver ? solver->direct() : starts_direct();
    const bool was_ready = solver != nullptr;
    solver.reset();
    rigid = std::move(other);
    holds = with_determinate_holds(mesh, rigid, constraints);
    free = free_directions(assembly.order(), rigid.body_of_node, holds);
    report.unknowns = free.count();
    inertia.emplace(mesh, rigid);
    if (!was_ready) return;
    inertia->set_material(*field);
    use({direct, options.corner_method});
    make_ready(false);
    factored_field = field;
  }

  void refuse_indefinite(int node) const {
    std::ostringstream message;
    message << "the stiffness matrix is not positive definite at the node near ("
            << mesh.nodes.col(node).transpose().format(
                   Eigen::IOFormat(6, Eigen::DontAlignCols, ", "))
            << ") mm: elements there hang by a point or an edge, or the material stores no energy";
    throw std::runtime_error(message.str());
  }

  void require_fits(const Eigen::MatrixXd& loads) const {
    if (!solver) throw std::logic_error("StaticSolver: set_material comes before solve");
    if (loads.rows() != mesh.unknowns())
      throw std::invalid_argument("a load has " + std::to_string(loads.rows()) +
                                  " entries, the mesh has " + std::to_string(mesh.unknowns()) +
                                  " unknowns");
    for (Eigen::Index c = 0; c < loads.cols(); ++c) {
      const auto place = "load " + std::to_string(c + 1);
      if (!loads.col(c).allFinite())
        throw std::invalid_argument(place + " has entries that are not finite numbers");
      for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
        if (rigid.body_of_node[i] < 0 && loads.col(c).segment<3>(3 * i) != Eigen::Vector3d::Zero())
          throw std::invalid_argument(place + " acts on a node that belongs to no element");
    }
  }

  NodeVectors<double> by_rank(const Eigen::MatrixXd& by_node, Eigen::Index first,
                              int columns) const {
    NodeVectors<double> result(mesh.node_count(), columns);
    for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
      for (int c = 0; c < columns; ++c)
        result.at(assembly.order().rank[i], c).head<3>() = by_node.col(first + c).segment<3>(3 * i);
    return result;
  }

  void to_nodes(const NodeVectors<double>& by_rank, Eigen::MatrixXd& by_node,
                Eigen::Index first) const {
    for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
      for (int c = 0; c < by_rank.columns(); ++c)
        by_node.col(first + c).segment<3>(3 * i) =
            by_rank.at(assembly.order().rank[i], c).head<3>();
  }

  /// What stands in the way of iterations that gave up is first the way on the corners, then
  /// iterating. Where round-off itself is in the way nothing else goes farther.
  Convergence solved(const NodeVectors<double>& f, NodeVectors<double>& u, double tolerance) {
    Convergence result = solver->solve(f, u, tolerance);
    if (!result.reached && solver->outdated()) {
      const int before = result.iterations;
      make_ready(false);
      factored_field = field;
      result = solver->solve(f, u, tolerance);
      result.iterations += before;
    }
    while (!result.reached && !solver->direct() &&
           !(result.at_round_off && result.relative_residual.maxCoeff() <= largest_residual)) {
      gave_up += " (" + solver->method() + " gave up: " + result.trouble + ")";
      try {
        if (solver->corners_exact())
          use({.direct = true});
        else
          use({.corner_method = CornerMethod::factor});
      } catch (const std::runtime_error& error) {
        throw std::runtime_error(error.what() + gave_up);
      }
      make_ready(false);
      result = solver->solve(f, u, tolerance);
    }
    report.method = solver->method() + gave_up;
    if (!result.reached && !solver->direct()) report.method += "; " + result.trouble;
    return result;
  }
};

StaticSolver::StaticSolver(const TetrahedronMesh& mesh, std::vector<NodeConstraint> constraints,
                           const SolverOptions& options, const TetrahedronRule& rule) {
  const Stopwatch watch;
  keep_freed_memory();
  impl_ = std::make_unique<Impl>(mesh, std::move(constraints), options, rule);
  impl_->report.seconds_assembly = watch.seconds();
}

StaticSolver::~StaticSolver() = default;

void StaticSolver::set_material(const MaterialField& field) {
  auto& self = *impl_;
  const Stopwatch assembling;
  if (self.solver) self.report.seconds_assembly = 0.0;  // laying out the pattern counted before
  self.assembly.assemble(field);
  self.inertia->set_material(field);
  self.report.seconds_assembly += assembling.seconds();

  const Stopwatch factoring;
  const bool keep_coarse =
      self.solver && self.factored_field &&
      spectrum_ratio(*self.factored_field, field) <= widest_spectrum_for_old_factor;
  if (!self.solver) self.use({self.starts_direct(), self.options.corner_method});
  self.make_ready(keep_coarse);
  self.field = field;
  if (!keep_coarse) self.factored_field = field;
  self.report.seconds_factor = factoring.seconds();
}

void StaticSolver::set_additions(StiffnessAdditions additions, Renewal renewal) {
  auto& self = *impl_;
  require_sound(additions, self.rigid.body_of_node);
  const Stopwatch watch;
  auto rigid = rigid_motions(self.mesh, self.constraints, additions);
  self.additions =
      additions_by_rank(std::move(additions), self.assembly.order().rank, self.threads);
  if (!same_freedom(rigid, self.rigid))
    self.free_anew(std::move(rigid));
  else if (self.solver && renewal == Renewal::at_once)
    self.make_ready(false);
  else if (self.solver)
    self.solver->additions_changed();
  self.report.seconds_factor = watch.seconds();
}

double StaticSolver::require_balanced(const Eigen::VectorXd& load, const std::string& name) const {
  impl_->require_fits(load);
  return impl_->inertia->require_balanced(load, name);
}

Eigen::MatrixXd StaticSolver::solve(const Eigen::MatrixXd& loads, Unbalanced unbalanced,
                                    const Eigen::MatrixXd* start, std::optional<double> tolerance) {
  auto& self = *impl_;
  self.require_fits(loads);
  if (start && (start->rows() != loads.rows() || start->cols() != loads.cols()))
    throw std::invalid_argument(
        "a start of " + std::to_string(start->rows()) + " x " + std::to_string(start->cols()) +
        " for loads of " + std::to_string(loads.rows()) + " x " + std::to_string(loads.cols()));
  if (loads.cols() == 0) return loads;
  const double wanted = tolerance.value_or(self.options.tolerance);
  const Stopwatch watch;
  Eigen::MatrixXd balanced = loads;
  self.report.unbalanced_force_fraction = 0.0;
  for (Eigen::Index c = 0; c < loads.cols(); ++c) {
    if (unbalanced == Unbalanced::refused)
      self.inertia->require_balanced(loads.col(c), "load " + std::to_string(c + 1));
    self.report.unbalanced_force_fraction =
        std::max(self.report.unbalanced_force_fraction, self.inertia->balance(balanced.col(c)));
  }

  Eigen::MatrixXd displacements(loads.rows(), loads.cols()), resting;
  if (start) resting = brought_to_rest(*start, self.mesh, self.rigid, self.holds);
  self.report.relative_residual = 0.0;
  self.report.energy_error.reset();
  self.report.iterations = 0;
  for (Eigen::Index first = 0; first < loads.cols(); first += most_columns) {
    const int columns =
        static_cast<int>(std::min<Eigen::Index>(most_columns, loads.cols() - first));
    auto f = self.by_rank(balanced, first, columns);
    self.free.project(f);
    auto u = start ? self.by_rank(resting, first, columns)
                   : NodeVectors<double>(self.mesh.node_count(), columns);
    self.free.project(u);
    const Convergence end = self.solved(f, u, wanted);
    const double left = end.relative_residual.maxCoeff();
    // maxCoeff may step over NaN.
    if (!u.all_finite() || !end.relative_residual.isFinite().all() ||
        !(left <= std::max(largest_residual, wanted)))
      refuse_residual(left, end.trouble);
    self.report.relative_residual = std::max(self.report.relative_residual, left);
    self.report.iterations += end.iterations;
    if (!end.reached) {
      // Neither maxCoeff nor a comparison may step over NaN.
      const auto& errors = end.relative_energy_error;
      const double error = errors.isFinite().all() ? errors.maxCoeff() : NAN;
      const double before = self.report.energy_error.value_or(0.0);
      self.report.energy_error = error > before || std::isnan(error) ? error : before;
    }
    self.to_nodes(u, displacements, first);
  }
  for (Eigen::Index c = 0; c < loads.cols(); ++c)
    self.inertia->remove_rigid_motion(displacements.col(c));
  self.report.seconds_solve = watch.seconds();
  return displacements;
}

Eigen::MatrixXd StaticSolver::internal_forces(const Eigen::MatrixXd& displacements) const {
  Eigen::MatrixXd forces(displacements.rows(), displacements.cols());
  for (Eigen::Index first = 0; first < forces.cols(); first += most_columns) {
    const int columns =
        static_cast<int>(std::min<Eigen::Index>(most_columns, forces.cols() - first));
    const auto u = impl_->by_rank(displacements, first, columns);
    NodeVectors<double> f(u.nodes(), columns);
    impl_->solver->internal_forces(u, f);
    impl_->to_nodes(f, forces, first);
  }
  return forces;
}

const SolveReport& StaticSolver::report() const { return impl_->report; }

}  // namespace crossgrain
