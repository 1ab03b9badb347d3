// SPDX-License-Identifier: GPL-3.0-or-later
// What a bead feels at the edge of a hole no wider than itself: Kirsch's peak of 3, evened out.
#include <Eigen/LU>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>
#include <sstream>

#include "mesh/geometry/gauss_rule.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/felt_stress.h"

namespace crossgrain::verification {
namespace {

using Eigen::Vector3d;
using std::numbers::pi;

/// Stress along the pull, which is along x, in an infinite plate with a hole of radius a.
double kirsch(double a, const Vector3d& at) {
  const double r = at.head<2>().norm(), t = std::atan2(at.y(), at.x());
  const double q = a * a / (r * r), c2 = std::cos(2 * t), s2 = std::sin(2 * t);
  const double rr = 0.5 * (1 - q) + 0.5 * (1 - 4 * q + 3 * q * q) * c2,
               tt = 0.5 * (1 + q) - 0.5 * (1 + 3 * q * q) * c2,
               rt = -0.5 * (1 + 2 * q - 3 * q * q) * s2;
  return rr * std::cos(t) * std::cos(t) + tt * std::sin(t) * std::sin(t) - rt * s2;
}

/// Integrals of the products of 1 and y, the distance from the hole's edge, with each other and
/// with the stress. All is symmetric about the y axis, so that x has no share in the fit.
class Moments {
 public:
  void add(double a, const Vector3d& at, double weight) {
    const Eigen::Vector2d functions(1.0, at.y() - a);
    normal_ += weight * functions * functions.transpose();
    right_ += weight * kirsch(a, at) * functions;
  }
  double mean() const { return right_[0] / normal_(0, 0); }
  double fit() const { return normal_.inverse().row(0) * right_; }

 private:
  Eigen::Matrix2d normal_ = Eigen::Matrix2d::Zero();
  Eigen::Vector2d right_ = Eigen::Vector2d::Zero();
};

/// Calls use(place, weight) for Gauss's points of equal pieces of [from, to].
template <class Use>
void along(double from, double to, int pieces, const Use& use) {
  const double half = 0.5 * (to - from) / pieces;
  for (int piece = 0; piece < pieces; ++piece)
    for (const GaussPoint& point : gauss_rule)
      use(from + half * (2 * piece + 1 + point.at), half * point.weight);
}

/// Over a line from the edge outwards.
Moments over_line(double a, double length) {
  Moments moments;
  along(a, a + length, 20,
        [&](double y, double weight) { moments.add(a, Vector3d(0, y, 0), weight); });
  return moments;
}

/// Over the part of a ball about the edge that lies outside the hole, by circles about the hole's
/// axis, weighted by the ball's height along that axis.
Moments over_ball(double a, double radius) {
  Moments moments;
  along(a, a + radius, 40, [&](double r, double weight_r) {
    // Where the circle of radius r leaves the ball.
    const double reach =
        std::acos(std::clamp((r * r + a * a - radius * radius) / (2.0 * a * r), -1.0, 1.0));
    // By sin(v), for at its ends the height falls to none as a root does.
    along(-0.5 * pi, 0.5 * pi, 8, [&](double v, double weight_v) {
      const double turn = reach * std::sin(v);
      const Vector3d at(r * std::sin(turn), r * std::cos(turn), 0.0);
      const double off = (at - Vector3d(0, a, 0)).squaredNorm();
      const double height = 2.0 * std::sqrt(std::max(0.0, radius * radius - off));
      moments.add(a, at, weight_r * weight_v * r * reach * std::cos(v) * height);
    });
  });
  return moments;
}

BOOST_AUTO_TEST_SUITE(felt_hole)

BOOST_AUTO_TEST_CASE(over_a_line_the_mean_and_the_fit_are_those_worked_out_elsewhere) {
  struct Known {
    double a, mean, fit;
  };
  // A line of 0.4, to four digits.
  for (const Known& known :
       {Known{0.5, 1.796, 2.533}, Known{1.0, 2.152, 2.796}, Known{2.5, 2.554, 2.950}}) {
    BOOST_TEST(std::abs(over_line(known.a, 0.4).mean() - known.mean) < 6e-4);
    BOOST_TEST(std::abs(over_line(known.a, 0.4).fit() - known.fit) < 6e-4);
  }
}

BOOST_AUTO_TEST_CASE(at_the_edge_of_a_hole_no_wider_than_a_bead_the_peak_is_what_a_bead_feels) {
  constexpr double bead = 0.4;
  for (const double a : {0.5, 1.0, 2.5}) {
    // A little more than the ball on all sides of the edge.
    const double reach = 1.2 * bead / 2.0;
    const auto mesh = testing::block_mesh({8, 16, 14}, [&](const Vector3d& u) {
      const double r = a + reach * u.x(), t = 0.5 * pi + reach / a * (2.0 * u.y() - 1.0);
      return Vector3d(r * std::cos(t), r * std::sin(t), reach * (2.0 * u.z() - 1.0));
    });
    const double felt =
        felt_at(mesh, {0, a, 0}, bead, [&](const Vector3d& at) { return kirsch(a, at); });
    std::ostringstream radius;
    radius << a;
    check_felt("hole " + radius.str(),
               "hole of radius " + radius.str() + ", pulled by 1, peak 3: felt by a bead of 0.4",
               "G. Kirsch (1898), Timoshenko and Goodier, Theory of Elasticity, art. 35; "
               "integrals over the ball",
               over_ball(a, bead / 2.0).fit(),
               fraction(1e-2, "the elements' own fit, seven to the ball's radius"), felt);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
