// SPDX-License-Identifier: GPL-3.0-or-later
// The stress that a bead feels: the linear fit over a ball, against integrals of exact fields.
#include "solver/stress/bead_fit.h"

#include <Eigen/LU>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>
#include <numbers>
#include <sstream>

#include "mesh/geometry/gauss_rule.h"
#include "solver/loads/loads.h"
#include "tests/support/imposed_stress.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Eigen::Vector3d;
using std::numbers::pi;
using testing::block_mesh;
using testing::joined;
using testing::welded;

void check_felt(const std::string& id, const std::string& what, const std::string& source,
                double target, const Tolerance& tolerance, double obtained) {
  check({Chapter::bead_fit, id, what, source, target, tolerance}, obtained);
}

StressPoint point_at(const TetrahedronMesh& mesh, const Vector3d& position) {
  const int node = testing::nearest_node(mesh, position);
  BOOST_TEST_REQUIRE((mesh.nodes.col(node) - position).norm() < 1e-9);
  return {node, mesh.body_of_tetrahedron.front(), 0};
}

double felt_at(const TetrahedronMesh& mesh, const Vector3d& position, double bead,
               const std::function<double(const Vector3d&)>& field) {
  return BeadFit(mesh, {point_at(mesh, position)}, {bead})
      .of(testing::imposed_stress(mesh, testing::all_components(field)))(2, 0);
}

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

/// Stress along the pull, which is along x, in Kirsch's infinite plate with a hole of radius a.
double kirsch(double a, const Vector3d& at) {
  const double r = at.head<2>().norm(), t = std::atan2(at.y(), at.x());
  const double q = a * a / (r * r), c2 = std::cos(2 * t), s2 = std::sin(2 * t);
  const double rr = 0.5 * (1 - q) + 0.5 * (1 - 4 * q + 3 * q * q) * c2,
               tt = 0.5 * (1 + q) - 0.5 * (1 + 3 * q * q) * c2,
               rt = -0.5 * (1 + 2 * q - 3 * q * q) * s2;
  return rr * std::cos(t) * std::cos(t) + tt * std::sin(t) * std::sin(t) - rt * std::sin(2 * t);
}

/// Moments of 1, x and y from the hole's edge, and of Kirsch's stress times these, over the part of
/// the ball outside the hole. By circles about the hole's axis: height of the ball along z is
/// known.
struct BallMoments {
  Eigen::Matrix2d normal = Eigen::Matrix2d::Zero();
  Eigen::Vector2d right = Eigen::Vector2d::Zero();

  BallMoments(double a, double R) {
    // Symmetric about the y axis, so that x has no share in the fit.
    const auto add = [&](double r, double weight_r) {
      // Where the circle of radius r leaves the ball.
      const double cosine = (r * r + a * a - R * R) / (2.0 * a * r);
      const double reach = std::acos(std::clamp(cosine, -1.0, 1.0));
      // s = reach sin(v): the height falls to none like a root at the ends.
      const Eigen::Matrix<double, 2, 3> sums = integrate(
          -0.5 * pi, 0.5 * pi, 8, Eigen::Matrix<double, 2, 3>(Eigen::Matrix<double, 2, 3>::Zero()),
          [&](double v) {
            const double from_y = reach * std::sin(v);
            const Vector3d at(r * std::sin(from_y), r * std::cos(from_y), 0.0);
            const double y = at.y() - a;
            const double height = 2.0 * std::sqrt(std::max(0.0, R * R - at.x() * at.x() - y * y));
            const double stress = kirsch(a, at);
            Eigen::Matrix<double, 2, 3> of_functions;
            of_functions << 1.0, y, stress, y, y * y, y * stress;
            return Eigen::Matrix<double, 2, 3>(height * r * reach * std::cos(v) * of_functions);
          });
      normal += weight_r * sums.leftCols<2>();
      right += weight_r * sums.col(2);
    };
    const int pieces = 40;
    for (int piece = 0; piece < pieces; ++piece)
      for (const GaussPoint& point : gauss_rule) {
        const double half = 0.5 * R / pieces;
        add(a + half * (2 * piece + 1 + point.at), half * point.weight);
      }
  }
  double mean() const { return right[0] / normal(0, 0); }
  double fit() const { return normal.inverse().row(0) * right; }
};

BOOST_AUTO_TEST_CASE(at_the_edge_of_a_hole_no_wider_than_a_bead_the_peak_is_what_a_bead_feels) {
  // Over a line of 0.4 from the edge outwards, instead of over the ball, the fit would be 2.533,
  // 2.796 and 2.950, the mean 1.796, 2.152 and 2.554.
  constexpr double bead = 0.4;
  for (const double a : {0.5, 1.0, 2.5}) {
    const Vector3d edge(0, a, 0);
    BOOST_TEST(kirsch(a, edge) == 3.0, boost::test_tools::tolerance(1e-12));
    const BallMoments ball(a, bead / 2.0);
    // A little more than the ball's radius on all sides of the edge.
    const double reach = 1.2 * bead / 2.0;
    const auto mesh = block_mesh({8, 16, 14}, [&](const Vector3d& u) {
      const double r = a + reach * u.x(), t = 0.5 * pi + reach / a * (2.0 * u.y() - 1.0);
      return Vector3d(r * std::cos(t), r * std::sin(t), reach * (2.0 * u.z() - 1.0));
    });
    std::ostringstream radius;
    radius << a;
    check_felt("hole " + radius.str(),
               "hole of radius " + radius.str() + ", pulled by 1, peak 3; felt by a bead of 0.4",
               "G. Kirsch (1898), Timoshenko and Goodier, Theory of Elasticity, art. 35; its "
               "integrals over the ball",
               ball.fit(), fraction(1e-2, "the elements' own fit, eight to the ball's radius"),
               felt_at(mesh, edge, bead, [&](const Vector3d& at) { return kirsch(a, at); }));
  }
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
