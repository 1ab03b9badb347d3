// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/static_solver.h"

namespace crossgrain::testing {

struct Solved {
  Eigen::MatrixXd u;
  SolveReport report;
};

inline Solved solve(const TetrahedronMesh& mesh, const std::vector<NodeConstraint>& held,
                    const MaterialField& field, const Eigen::MatrixXd& loads,
                    const SolverOptions& options) {
  StaticSolver solver(mesh, held, options);
  solver.set_material(field);
  Solved solved;
  solved.u = solver.solve(loads);
  solved.report = solver.report();
  return solved;
}

}  // namespace crossgrain::testing
