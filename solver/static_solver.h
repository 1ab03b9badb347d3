// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/material_field.h"
#include "solver/elements/quadrature.h"
#include "solver/iteration/additions.h"
#include "solver/multigrid/corner_choice.h"
#include "solver/supports/supports.h"

namespace crossgrain {

enum class SolverMethod {
  automatic,  ///< direct for small systems, iterative for others
  direct,     ///< sparse Cholesky
  iterative,  ///< conjugate gradients with p-multigrid
};

struct SolverOptions {
  int threads = 0;  ///< 0: all cores; results do not depend on it
  SolverMethod method = SolverMethod::automatic;
  CornerMethod corner_method = CornerMethod::automatic;  ///< within the iterative one
  /// Relative residual that the iterative solver goes down to; the direct one goes as far as
  /// round-off lets it.
  double tolerance = 1e-9;
};

struct SolveReport {
  std::string method;  ///< in words
  Eigen::Index unknowns = 0;
  int iterations = 0;  ///< of the last solve, summed over its batches of right-hand sides
  double relative_residual =
      0.0;  ///< largest over the right-hand sides, of K u - f on free unknowns
  /// Largest over the right-hand sides that missed the tolerance: the error's energy norm over the
  /// solution's, estimated; what round-off leaves may be large in forces and mean nothing here.
  std::optional<double> energy_error;
  double seconds_assembly = 0.0;
  double seconds_factor = 0.0;  ///< factor or preconditioner
  double seconds_solve = 0.0;
  double unbalanced_force_fraction = 0.0;  ///< of each load's own size; largest; carried by inertia
};

/// What to make of loads that drive a free rigid motion.
enum class Unbalanced {
  refused,
  left_to_inertia,  ///< parts of a sum: in a sum that balances, what inertia carries cancels out
};

/// When what was factorised for other additions gives way to a new factor.
enum class Renewal {
  when_slow,  ///< iterations exceed those of the new one by more than making it is worth
  at_once,
};

/// The narrow door to whatever solves K u = f on one mesh: constraints are fixed for its life, the
/// material field can be replaced (another print direction, another elastic set) and re-used work
/// is the solver's own business.
class StaticSolver {
 public:
  /// @param mesh  kept by reference for the solver's life.
  /// @throws std::invalid_argument for constraints that do not fit the mesh.
  StaticSolver(const TetrahedronMesh& mesh, std::vector<NodeConstraint> constraints,
               const SolverOptions& options = {}, const TetrahedronRule& rule = stiffness_rule());
  ~StaticSolver();
  StaticSolver(const StaticSolver&) = delete;
  StaticSolver& operator=(const StaticSolver&) = delete;

  /// Assemble, and factorise or make ready to iterate. From the second field on the iterative
  /// solver keeps its coarse factor while the old and the new elastic constants are near enough.
  /// @throws std::runtime_error if the matrix is not positive definite.
  /// @throws std::invalid_argument for an inverted element.
  void set_material(const MaterialField& field);

  /// Stiffness beside the elements', in force until it is replaced. Without effect on what
  /// `internal_forces` gives. Bodies that it joins are a group: motions of the group that neither
  /// constraints hold nor additions resist are free. Blocks of zero cost no new pattern when they
  /// get a value later. Given before the first material they spare a factor.
  /// @throws std::invalid_argument for a node that is not there or a value that is not finite.
  /// @throws std::runtime_error if the matrix is not positive definite.
  void set_additions(StiffnessAdditions additions, Renewal renewal = Renewal::when_slow);

  /// Displacements for several loads. Rigid motions that the constraints leave free are removed:
  /// the part of a load that drives them is balanced by inertia, and the displacement has none of
  /// them (mass-weighted).
  /// @param loads  unknowns x n [N].  @return unknowns x n [mm].
  /// @param start  unknowns x n [mm], where an iteration begins: a solution of a system nearby.
  /// @param tolerance  in place of the options': where the answer is a step on a way.
  /// @throws std::invalid_argument as require_balanced does, if `unbalanced` says so; for a start
  /// of another size.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& loads, Unbalanced unbalanced = Unbalanced::refused,
                        const Eigen::MatrixXd* start = nullptr,
                        std::optional<double> tolerance = std::nullopt);

  /// @param name  of the load, for the message.
  /// @return the fraction of a load's size that is left to inertia; 0 where constraints hold all.
  /// @throws std::invalid_argument printing the resultant if a load's unbalanced part exceeds 0.1 %
  /// of its size: the sum of its nodal forces' lengths. Moments count about the part's centre,
  /// divided by the root mean square distance of its nodes from there.
  double require_balanced(const Eigen::VectorXd& load, const std::string& name) const;

  /// Nodal forces K u of a displacement, without constraints and additions [N]: reactions =
  /// K u - load.
  Eigen::MatrixXd internal_forces(const Eigen::MatrixXd& displacements) const;

  const SolveReport& report() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace crossgrain
