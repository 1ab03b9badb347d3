// SPDX-License-Identifier: GPL-3.0-or-later
// The stress that a bead feels: the linear fit over a ball, against integrals of exact fields.
#include "solver/stress/bead_fit.h"

#include <Eigen/LU>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/felt_stress.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Eigen::Vector3d;
using std::numbers::pi;
using testing::block_mesh;
using testing::joined;
using testing::welded;

BOOST_AUTO_TEST_SUITE(bead_fit)

BOOST_AUTO_TEST_CASE(a_bent_plate_loses_nothing) {
  // Pure bending about y of a plate as thick as two beads: u = k (x z, -nu y z, (nu (y^2 - z^2) -
  // x^2) / 2), stress E k z along x.
  constexpr double E = 2000.0, nu = 0.3, k = 0.01;
  const auto mesh = testing::box_mesh({4, 2, 1}, {8.0, 4.0, 2.0});
  Eigen::VectorXd u(mesh.unknowns());
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    const Vector3d p = mesh.nodes.col(i) - Vector3d(0, 2, 1);
    u.segment<3>(3 * i) = k * Vector3d(p.x() * p.z(), -nu * p.y() * p.z(),
                                       (nu * (p.y() * p.y() - p.z() * p.z()) - p.x() * p.x()) / 2);
  }
  const auto points = stress_points(mesh);
  const auto field = same_everywhere(mesh, elastic_material(isotropic(E, nu)), skew_frame());

  const auto felt = BeadFit(mesh, points, {1.0}).of(element_stress(mesh, field, u));

  double worst = 0.0;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const double expected = E * k * (mesh.nodes(2, points[p].node) - 1.0);
    const double off = std::abs(felt(0, static_cast<int>(p)) - expected) / (E * k);
    if (!(off <= worst)) worst = off;
  }
  check_felt("bent plate",
             "plate two beads thick, bent: largest departure at any node, share of "
             "the surface's stress",
             "exact: pure bending (handbook form)", 0.0, absolute(1e-9, "round-off"), worst);
}

BOOST_AUTO_TEST_CASE(nothing_leaks_across_a_slit) {
  const auto left = testing::box_mesh({3, 3, 3}, {3.0, 3.0, 3.0});
  auto right = left;
  right.nodes.row(0).array() += 3.0;
  // Not welded: the faces at x = 3 coincide and are not connected.
  const auto slit = joined(left, right, 10);

  const double felt =
      felt_at(slit, {3, 1, 1}, 2.5, [](const Vector3d& at) { return at.x() < 3.0 ? 1.0 : 1000.0; });

  check_felt("slit", "a slit, stress 1 on this side and 1000 on the other: felt on this side",
             "exact: bodies that do not touch", 1.0, fraction(1e-9, "round-off"), felt);
}

/// Integral of r^n times the height of a ball of radius 1 over the distance r from its axis.
double over_ball(double n) { return std::beta((n + 1) / 2, 1.5); }

BOOST_AUTO_TEST_CASE(at_a_re_entrant_corner_the_fit_of_a_singular_field_is_that_of_its_integrals) {
  constexpr double lambda = 0.5444837;  // sin(lambda 3 pi/2) = lambda in magnitude
  BOOST_TEST(std::abs(std::abs(std::sin(lambda * 1.5 * pi)) - lambda) < 1e-6);
  // Directions -135 to 135 degrees about +x, in a ball of radius 1.
  Eigen::Matrix2d normal;
  normal << 1.5 * pi * over_ball(1), std::sqrt(2.0) * over_ball(2), std::sqrt(2.0) * over_ball(2),
      (0.75 * pi - 0.5) * over_ball(3);
  const Eigen::Vector2d right(1.5 * pi * over_ball(lambda), std::sqrt(2.0) * over_ball(lambda + 1));
  const double expected = normal.inverse().row(0) * right;

  const auto quarter = [](double from) {
    return block_mesh({12, 12, 24}, [from](const Vector3d& u) {
      // A square with its corner at the origin, turned.
      const Vector3d p(1.2 * u.x(), 1.2 * u.y(), 2.4 * u.z() - 1.2);
      const double turn = from * pi / 180.0;
      return Vector3d(std::cos(turn) * p.x() - std::sin(turn) * p.y(),
                      std::sin(turn) * p.x() + std::cos(turn) * p.y(), p.z());
    });
  };
  const auto mesh = welded(joined(joined(quarter(-135), quarter(-45), 10), quarter(45), 20), 1e-9);
  const double felt = felt_at(mesh, {0, 0, 0}, 2.0, [](const Vector3d& at) {
    return std::pow(std::max(at.head<2>().norm(), 1e-12), lambda - 1);
  });

  check_felt(
      "corner", "r^(λ − 1) about a right-angled inner corner, a bead of radius 1: felt there",
      "M. L. Williams, J. Appl. Mech. 19 (1952): λ = 0.54448; its integrals over the ball",
      expected,
      fraction(1e-2, "ten elements to the radius, those at the edge fit r^-0.46 as they can"),
      felt);
}

BOOST_AUTO_TEST_CASE(
    at_a_re_entrant_corner_the_raw_value_grows_with_the_mesh_the_fitted_one_rests) {
  // Three squares round an inner corner along z; one end held, the other pulled.
  const auto at_corner = [](int cells) {
    const auto square = [cells](double x, double y) {
      return block_mesh({3 * cells, 3 * cells, cells}, [x, y](const Vector3d& u) {
        return Vector3d(3 * u.x() + x, 3 * u.y() + y, u.z());
      });
    };
    Model model;
    model.mesh = welded(joined(joined(square(-3, 0), square(-3, -3), 10), square(0, -3), 20), 1e-9);
    model.field =
        same_everywhere(model.mesh, elastic_material(isotropic(2000, 0.35)), skew_frame());
    model.held =
        constraints_of(model.mesh, {{"end", {FaceId{22}}, Hold::all},
                                    held_along({testing::zeta_low, testing::zeta_high, FaceId{15},
                                                FaceId{16}, FaceId{25}, FaceId{26}},
                                               Vector3d::UnitZ())});
    const Answer answer =
        solve(model, spread_force(model.mesh, {testing::eta_high}, {-10, 0, 0}, Vector3d::Zero()));
    const std::vector<StressPoint> corner{point_at(model.mesh, {0, 0, 0.5})};
    const ElementStress stress = element_stress(model.mesh, model.field, answer.displacement);
    return std::pair(nodal_average(model.mesh, corner, stress)(0, 0),
                     BeadFit(model.mesh, corner, {1.0}).of(stress)(0, 0));
  };
  const auto [raw, felt] = at_corner(2);
  const auto [raw_finer, felt_finer] = at_corner(4);

  const std::string source = "M. L. Williams, J. Appl. Mech. 19 (1952): stress goes as r^-0.45552";
  check_felt("corner raw", "right-angled inner corner, edges halved: recovered stress, growth",
             source, std::pow(2.0, 0.4555163),
             fraction(0.1, "the singular term alone; the regular rest takes some off"),
             raw_finer / raw);
  check_felt("corner felt", "the same: growth of what a bead of two (four) elements feels", source,
             1.0, fraction(0.04, "it has a limit; two and four elements to the radius"),
             felt_finer / felt);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
