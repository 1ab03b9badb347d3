// SPDX-License-Identifier: GPL-3.0-or-later
// A3: a solid of revolution, sphere then taper then cylinder, heated unevenly.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using Meridian = Eigen::Vector2d;  // r, z [m]

constexpr double metre = 1000.0;
constexpr double wedge = 0.15;  // [rad]
constexpr double degree = std::numbers::pi / 180.0;

Meridian arc(double radius, double angle) {
  return radius * Meridian(std::cos(angle), std::sin(angle));
}

Meridian between(const Meridian& from, const Meridian& to, double share) {
  return from + share * (to - from);
}

// Both sides of the meridian, in three pieces s = 0..1 (sphere), 1..2 (taper), 2..3 (cylinder);
// the arcs stay arcs, so mid-side nodes lie on the true sphere.
Meridian inner_side(double s) {
  const Meridian arc_end = arc(1.0, 45.0 * degree);
  if (s <= 1.0) return arc(1.0, 45.0 * degree * s);
  const Meridian corner(arc_end.x(), 1.39), end(arc_end.x(), 1.79);
  return s <= 2.0 ? between(arc_end, corner, s - 1.0) : between(corner, end, s - 2.0);
}

Meridian outer_side(double s) {
  const Meridian arc_end = arc(1.4, 30.0 * degree), corner(1.0, 1.39), end(1.0, 1.79);
  if (s <= 1.0) return arc(1.4, 30.0 * degree * s);
  return s <= 2.0 ? between(arc_end, corner, s - 1.0) : between(corner, end, s - 2.0);
}

/// xi: through the wall, eta: round the axis, zeta: along the meridian.
testing::BlockMap taper_map(int cells_through) {
  return [=](const Point& unit) {
    const double through = graded(unit.x(), cells_through, 1.3);  // finer towards the point A
    const double s = 3.0 * unit.z();
    const Meridian m = between(inner_side(s), outer_side(s), through);
    const double theta = wedge * unit.y();
    return Point(metre * Point(m.x() * std::cos(theta), m.x() * std::sin(theta), m.y()));
  };
}

/// @param cells  the third a multiple of 3, for the three pieces.
double axial_stress_at_A(const std::array<int, 3>& cells) {
  Model model;
  model.mesh = testing::block_mesh(cells, taper_map(cells[0]));
  model.field = same_everywhere(
      model.mesh, elastic_material(isotropic(210e3, 0.3), Point::Constant(2.3e-4)), skew_frame());
  model.held = constraints_of(
      model.mesh, {held_along({testing::eta_low}, Point::UnitY()),
                   held_along({testing::eta_high}, Point(-std::sin(wedge), std::cos(wedge), 0.0)),
                   held_along({testing::zeta_low, testing::zeta_high}, Point::UnitZ())});
  Eigen::VectorXd heat(model.mesh.node_count());
  for (Eigen::Index i = 0; i < heat.size(); ++i)
    heat[i] = (model.mesh.nodes.col(i).head<2>().norm() + model.mesh.nodes(2, i)) / metre;
  const Answer answer = solve(model, thermal_load(model.mesh, model.field, heat), heat);
  return stress_at(model, answer, Point(metre, 0.0, 0.0))[2];
}

BOOST_AUTO_TEST_SUITE(heated_taper)

BOOST_AUTO_TEST_CASE(an_unevenly_heated_solid_of_revolution_is_squeezed_at_its_equator) {
  const auto row = [](const std::string& mesh, const Tolerance& tolerance, double obtained) {
    check({Chapter::standard_benchmarks, "A3 σzz(A) " + mesh,
           "cylinder, taper and sphere under ΔT = r + z: axial stress at A, " + mesh + " mesh",
           "NAFEMS LE11 (TNSB rev. 3, 1990)", -105.0, tolerance},
          obtained);
  };
  row("modest", fraction(2e-2, "six elements through the wall, the sphere true"),
      axial_stress_at_A({6, 2, 18}));
  row("fine", fraction(1e-2, "ten elements through the wall"), axial_stress_at_A({10, 2, 30}));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
