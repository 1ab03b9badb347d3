// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies that press on each other without friction: a sphere, a flat punch.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "tests/support/joined_blocks.h"
#include "tests/verification/check_table.h"
#include "tests/verification/graded_disc.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

constexpr double E = 1000.0, nu = 0.3, approach = 0.01;

/// What two discs press on each other, brought together by the approach; far faces do not move.
struct Pressed {
  InterfacePair pair;
  PairState state;
};

Pressed pressed(const GradedDisc& lower, const GradedDisc& upper, double E_upper, double reach,
                bool distance_counts) {
  const auto mesh = testing::two_bodies(lower.mesh(), upper.mesh(), 0);
  MaterialField field = uniform_field(
      mesh, {elastic_material(isotropic(E, nu)), elastic_material(isotropic(E_upper, nu))},
      {Frame::Identity(), Frame::Identity()});
  std::vector<Support> held = lower.symmetry();
  for (const auto& support : upper.symmetry()) held.push_back(support);
  held.push_back({"far", lower.far_face(), Hold::all});
  held.push_back({"far", upper.far_face(), Hold::all});
  StaticSolver solver(mesh, constraints_of(mesh, held), {.method = SolverMethod::direct});
  solver.set_material(field);
  auto pair = testing::pair_between(mesh, field, upper.graded_face(), lower.graded_face(),
                                    Unilateral{}, reach);
  pair.distance_counts = distance_counts;
  pair.clearance = -approach;
  JointSolver joint(mesh, solver, {{pair}, {}});
  const auto solution = joint.solve({Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}});
  return {pair, solution.pairs[0]};
}

/// Mean pressure within a radius.
double mean_pressure(const Pressed& pressed, double radius) {
  double force = 0.0, area = 0.0;
  for (std::size_t p = 0; p < pressed.pair.points.size(); ++p) {
    const auto& point = pressed.pair.points[p];
    if (!(point.position.head<2>().norm() <= radius)) continue;
    area += point.area;
    force += point.area * pressed.state.pressure[static_cast<Eigen::Index>(p)];
  }
  return force / area;
}

BOOST_AUTO_TEST_SUITE(bodies_in_contact)

BOOST_AUTO_TEST_CASE(a_sphere_on_a_flat_body) {
  // Contact radius 1 by the approach: a^2 = R approach.
  constexpr double R = 100.0;
  GradedDisc flat{1.4, 40.0, 40.0, 5, 8, 8, 1.53, 1.8, -1.0, [](double) { return 0.0; }, 1};
  GradedDisc ball{
      1.5, 40.0, 40.0, 4, 9, 9, 1.45, 1.6, 1.0, [](double r) { return r * r / (2.0 * R); }, 31};

  const auto found = pressed(flat, ball, E, 0.05, true);

  const double E_star = E / (2.0 * (1.0 - nu * nu));
  const double force = 4.0 * found.state.force;
  const double radius = std::cbrt(3.0 * force * R / (4.0 * E_star));
  double area = 0.0;
  for (const auto& point : found.pair.points) area += point.area;
  const auto row = [&](const std::string& id, const std::string& what, double target,
                       const std::string& reason, double obtained) {
    check({Chapter::contact, "Hertz " + id, "sphere R 100 on a flat body, E 1000 ν 0.3: " + what,
           "exact: Hertz (Johnson, Contact Mechanics, 1985, handbook form)", target,
           fraction(3e-2, reason)},
          obtained);
  };
  row("approach", "approach under the force found", radius * radius / R,
      "bodies of 40 contact radii give 1 % less than half-spaces", approach);
  row("radius", "radius of the area that is pressed", radius, "elements of 0.3 of the radius",
      std::sqrt(4.0 * (area - found.state.open_area) / std::numbers::pi));
  // p = p0 sqrt(1 - r^2 / a^2), in the mean over a circle.
  const double share = 0.3 * 0.3;
  const double peak = 1.5 * force / (std::numbers::pi * radius * radius);
  row("pressure", "pressure, mean within 0.3 of the contact's radius (the peak is 2.3 % more)",
      peak * (1.0 - std::pow(1.0 - share, 1.5)) / (1.5 * share),
      "elements of 0.3 of the radius; single points scatter by 10 %",
      mean_pressure(found, 0.3 * radius));
}

BOOST_AUTO_TEST_CASE(a_stiff_flat_punch) {
  GradedDisc flat{1.0, 40.0, 40.0, 8, 10, 8, 1.75, 2.1, -1.0, [](double) { return 0.0; }, 1, 0.7};
  // Its rim lies at 1, where pressure has no bound: elements get smaller towards it.
  GradedDisc punch{0.45, 1.0, 2.0, 3, 5, 3, 0.6, 1.5, 1.0, [](double) { return 0.0; }, 31};

  const auto found = pressed(flat, punch, 1e4 * E, 0.05, false);

  const double force = 4.0 * found.state.force;
  const auto row = [&](const std::string& id, const std::string& what, double target, double size,
                       const std::string& reason, double obtained) {
    check({Chapter::contact, "punch " + id, "stiff round punch of radius 1 on a flat body: " + what,
           "exact: p = P / (2 pi a sqrt(a^2 - r^2)) (Johnson, Contact Mechanics, 1985, handbook "
           "form)",
           target, fraction(size, reason)},
          obtained);
  };
  row("force", "force by the approach, 2 a E / (1 - nu^2) of it",
      2.0 * E / (1.0 - nu * nu) * approach, 5e-2,
      "a body of 40 radii is 1 % stiffer than a half-space; the rim, where pressure has no bound, "
      "gives as if the punch were 0.4 of an element of 0.09 wider",
      force);
  for (double r : {0.4, 0.7})
    row("r < " + std::to_string(r).substr(0, 3), "mean pressure within that radius",
        force / std::numbers::pi * (1.0 - std::sqrt(1.0 - r * r)) / (r * r), 3e-2,
        "elements of 0.2 of the radius", mean_pressure(found, r));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
