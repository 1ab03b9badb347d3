// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/direction_times.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "solver/directions/energy_bound.h"
#include "solver/directions/half_sphere.h"
#include "solver/directions/reduced_load.h"
#include "tools/bench/seconds.h"

namespace crossgrain::bench {
namespace {

// A snapshot's own error enters the answer squared in energy, and strength at its own size.
constexpr double snapshot_tolerance = 1e-4;
constexpr Eigen::Index held_out = 4;

double cold_seconds(const Part& part) {
  const double start = seconds();
  StaticSolver solver(part.mesh, part.held, {.tolerance = 1e-8});
  solver.set_material(part.printed_along({0, 0, 1}));
  solver.solve(part.pressure);
  return seconds() - start;
}

}  // namespace

void time_directions(const Part& part, int snapshots,
                     const std::function<void(const nlohmann::json&)>& print) {
  const double cold = cold_seconds(part);
  const MaterialField any = part.printed_along({0, 0, 1});
  const auto isotropic = isotropic_field(any);
  double start = seconds();
  StaticSolver solver(part.mesh, part.held, {.tolerance = snapshot_tolerance});
  // Near enough to every direction for the corners' factor to stay.
  solver.set_material(isotropic.field);
  print({{"unknowns", part.mesh.unknowns()},
         {"cold_solve_seconds", cold},
         {"set_up_in_cold_solves", (seconds() - start) / cold},
         {"condition_of_isotropic", isotropic.greatest / isotropic.least}});

  const DirectionalStiffness stiffness(part.mesh, any, 0);
  ReducedLoad answer(stiffness, DirectionalLoad(part.pressure));
  const Eigen::Matrix3Xd directions = half_sphere(snapshots);
  for (Eigen::Index i = 0; i < directions.cols(); ++i) {
    const Eigen::Vector3d n = directions.col(i);
    start = seconds();
    solver.set_material(part.printed_along(n));
    const Eigen::MatrixXd begin = answer.size() > 0
                                      ? Eigen::MatrixXd(answer.displacement(n))
                                      : Eigen::MatrixXd::Zero(part.mesh.unknowns(), 1);
    const Eigen::MatrixXd u = solver.solve(part.pressure, Unbalanced::refused, &begin);
    const double solved = seconds();
    answer.widen(n, u);
    const auto& report = solver.report();
    print({{"snapshot", i + 1},
           {"solve_in_cold_solves", (solved - start) / cold},
           {"assembly_in_cold_solves", report.seconds_assembly / cold},
           {"factor_in_cold_solves", report.seconds_factor / cold},
           {"iterations", report.iterations},
           {"widening_in_cold_solves", (seconds() - solved) / cold}});
  }

  StaticSolver exact(part.mesh, part.held, {.tolerance = 1e-8});
  exact.set_material(isotropic.field);
  const Eigen::Matrix3Xd others = half_sphere(held_out);
  for (const Eigen::Vector3d n : others.colwise()) {
    exact.set_material(part.printed_along(n));
    const Eigen::VectorXd begin = answer.displacement(n);
    const Eigen::MatrixXd start_at = begin;
    const Eigen::VectorXd u = exact.solve(part.pressure, Unbalanced::refused, &start_at);
    const Eigen::VectorXd error = u - begin;
    const double energy = error.dot(exact.internal_forces(error).col(0));
    exact.set_material(isotropic.field);
    const double bound = energy_error_bounds(exact, isotropic, answer.residual(n))[0];
    const double size = std::sqrt(u.dot(part.pressure));
    print({{"held_out", {n.x(), n.y(), n.z()}},
           {"energy_error", std::sqrt(energy) / size},
           {"energy_bound", bound / size}});
  }
}

}  // namespace crossgrain::bench
