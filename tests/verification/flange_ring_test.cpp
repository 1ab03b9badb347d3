// SPDX-License-Identifier: GPL-3.0-or-later
// The hand calculation's flange: a ring of rectangular section turned by a moment spread round it,
// loose and on a tube, against solved wedges of it.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "cases/second_opinions/flange_formulas.h"
#include "solver/loads/loads.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using std::numbers::pi;

constexpr double E = 2000.0, nu = 0.3, wedge = 0.1;

const std::string couples =
    "Timoshenko, Strength of Materials, Part II, ring twisted by couples (from memory)";
const std::string on_pipe =
    "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, long shell loaded at its edge "
    "(from memory)";

void check_ring(const std::string& id, const std::string& what, const std::string& source,
                double target, const Tolerance& tolerance, double obtained) {
  check({Chapter::plates, id, what, source, target, tolerance}, obtained);
}

/// Of a wedge a share: an axial force all round on a face of the sector, spread evenly.
Eigen::VectorXd axial(const TetrahedronMesh& mesh, FaceId face, double radius, double height,
                      double force) {
  const double traction = force / (2.0 * pi * radius * height);
  return traction_load(mesh, {face}, [=](const Point&) { return Point(0, 0, traction); });
}

BOOST_AUTO_TEST_SUITE(flange_rings)

BOOST_AUTO_TEST_CASE(a_narrow_ring_turns_as_a_thin_one) {
  // m R^2 / E I and E theta y / R, of a bar of 2 x 6 bent to R = 100.
  const double R = 100.0, b = 2.0, h = 6.0, m = 5.0, moment = 2.0 * pi * R * m;
  const RingSize ring{R - b / 2.0, R + b / 2.0, h};
  const double turn = m * R * R / (E * b * h * h * h / 12.0);
  const Tolerance thin = fraction(1e-4, "leaves out the width over the radius, squared, over 12");
  check_ring("flange thin turn", "ring of 2 × 6 at R 100, moment 5 for each mm: turn, by ln(b/a)",
             couples + ": θ = m R² / E I", turn, thin, ring_turn(moment, ring, E));
  check_ring("flange thin σθ", "the same: stress round it at R", couples + ": σ = m R y / I",
             E * turn * (h / 2.0) / R, thin, turned_ring_stress(moment, ring, R));
}

BOOST_AUTO_TEST_CASE(a_solved_ring_turns_as_the_formula_says) {
  const RingSize ring{40.0, 50.0, 10.0};
  const CylinderSector shape{ring.inner, ring.outer, wedge, ring.height};
  Model model;
  model.mesh = testing::block_mesh({8, 1, 8}, shape.map());
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(E, nu)), skew_frame());
  model.held = constraints_of(model.mesh, shape.symmetry());
  hold_nodes(model.held, {testing::nearest_node(model.mesh, shape.at(ring.inner, 0, 5))},
             Point::UnitZ());
  const double force = 1000.0, moment = force * (ring.outer - ring.inner);

  const Answer answer =
      solve(model, axial(model.mesh, testing::xi_low, ring.inner, ring.height, -force) +
                       axial(model.mesh, testing::xi_high, ring.outer, ring.height, force));

  const auto lift = [&](double r) {
    return displacement_at(model, answer, shape.at(r, 0.0, 5.0)).z();
  };
  const Tolerance rigid =
      fraction(3e-2, "the section is taken as rigid; here it is as high as wide");
  check_ring("flange ring turn", "ring 40 to 50, 10 high, 1000 N down inside and up outside: turn",
             couples, ring_turn(moment, ring, E), rigid,
             (lift(ring.outer) - lift(ring.inner)) / (ring.outer - ring.inner));
  check_ring("flange ring σθ(45)", "the same: stress round it at r 45, lower side", couples,
             turned_ring_stress(moment, ring, 45.0), rigid,
             stress_component(stress_at(model, answer, shape.at(45, 0, 0)), Point::UnitY(),
                              Point::UnitY()));
}

BOOST_AUTO_TEST_CASE(a_solved_flange_on_a_tube_turns_as_ring_and_shell_do) {
  const double wall = 2.0, length = 80.0, R = 61.0, middle = 68.5;
  const RingSize ring{60.0, 75.0, 12.0};
  const double outside = ring.inner + wall;
  const CylinderSector tube{ring.inner, outside, wedge, length},
      above{ring.inner, outside, wedge, ring.height}, rest{outside, ring.outer, wedge, ring.height};
  const auto raised = [](const CylinderSector& sector, double z) {
    return [=](const Point& unit) { return Point(sector.map()(unit) + Point(0, 0, z)); };
  };
  Model model;
  model.mesh = testing::welded(
      testing::joined(testing::joined(testing::block_mesh({4, 1, 60}, raised(tube, -length)),
                                      testing::block_mesh({4, 1, 8}, above.map()), 10),
                      testing::block_mesh({10, 1, 8}, rest.map()), 20),
      1e-9);
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(E, nu)), skew_frame());
  const std::vector<FaceId> low{testing::eta_low, FaceId{13}, FaceId{23}},
      high{testing::eta_high, FaceId{14}, FaceId{24}};
  model.held =
      constraints_of(model.mesh, {held_along(low, Point::UnitY()),
                                  held_along(high, Point(-std::sin(wedge), std::cos(wedge), 0)),
                                  held_along({testing::zeta_low}, Point::UnitZ())});
  const double force = 1000.0, moment = force * (ring.outer - R);

  const Answer answer = solve(model, axial(model.mesh, FaceId{22}, ring.outer, ring.height, force));

  const RingMotion motion = ring_on_tube(moment, 0.0, ring, {R, wall, false}, nu);
  const auto lift = [&](double r) {
    return displacement_at(model, answer, rest.at(r, 0.0, 6.0)).z();
  };
  const auto round_at = [&](double z) {
    return stress_at(model, answer, rest.at(middle, 0.0, z))[1];
  };
  const Tolerance rough = fraction(1e-1,
                                   "a thin shell of R/t = 30 joined at one circle, which gives "
                                   "way, to a section taken as rigid");
  check_ring("flange on tube turn",
             "flange 60 to 75, 12 high, on a tube of wall 2, 1000 N up outside: turn", on_pipe,
             motion.turn / E, rough, (lift(ring.outer) - lift(outside)) / (ring.outer - outside));
  check_ring("flange on tube σθ", "the same: linear part of the stress round it at r 68.5", on_pipe,
             motion.turn * 0.5 * ring.height / middle, rough,
             0.5 * (round_at(0.0) - round_at(ring.height)));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
