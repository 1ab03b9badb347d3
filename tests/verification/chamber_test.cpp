// SPDX-License-Identifier: GPL-3.0-or-later
// A trade fact: a hand-sized printed chamber at a gentle working pressure.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "materials/card_file/card.h"
#include "materials/units/quantity.h"
#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using Meridian = Eigen::Vector2d;  // r, z [mm]

// Bore 70, dished ends of half the bore's depth, 6 mm walls, a 10 mm port in the middle of each
// end.
constexpr double bore_radius = 35.0, dish_depth = 17.5, wall = 6.0, port_radius = 5.0;
constexpr double half_length = 40.0;  // of the straight part
constexpr double wedge = 0.3;         // [rad]

/// Half a meridian on one side of the wall: s = 0 at the port, 1 at the end of the dish, 2 at the
/// chamber's middle.
Meridian side(double offset, double s) {
  const double a = bore_radius + offset, b = dish_depth + offset;
  if (s > 1.0) return {a, half_length * (s - 1.0)};
  const double at_port = std::asin(port_radius / a);
  const double angle = at_port + s * (std::numbers::pi / 2.0 - at_port);
  return {a * std::sin(angle), -b * std::cos(angle)};
}

constexpr std::array<int, 3> cells{3, 2, 24};

/// xi: from the inside out, eta: round the axis, zeta: along the meridian, finer at the port.
Point chamber_map(const Point& unit) {
  const double s = 2.0 * graded(unit.z(), cells[2], 1.3);
  const Meridian m = (1.0 - unit.x()) * side(0.0, s) + unit.x() * side(wall, s);
  const double theta = wedge * unit.y();
  return {m.x() * std::cos(theta), m.x() * std::sin(theta), m.y()};
}

/// The least factor of an isotropic analysis on one strength, the shortcut of the trade.
double factor(double pressure, double strength) {
  Model model;
  model.mesh = testing::block_mesh(cells, chamber_map);
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(5000, 0.35)), skew_frame());
  model.held = constraints_of(
      model.mesh, {held_along({testing::eta_low}, Point::UnitY()),
                   held_along({testing::eta_high}, Point(-std::sin(wedge), std::cos(wedge), 0)),
                   held_along({testing::zeta_high}, Point::UnitZ())});
  const FaceId inside = testing::xi_low, port = testing::zeta_low;
  // The plug in the port hands its thrust to the port's wall.
  const double port_area = face_moments(model.mesh, {port}).area;
  const double thrust = pressure * wedge / 2.0 * port_radius * port_radius;
  const Eigen::VectorXd load =
      pressure_load(model.mesh, {inside}, [&](const Point&) { return pressure; }) +
      traction_load(model.mesh, {port},
                    [&](const Point&) { return Point(0, 0, -thrust / port_area); });

  const Answer answer = solve(model, load);

  return load_multipliers(FailureMode::brittle_tension, BrittleStrength{strength},
                          Eigen::Matrix<double, 6, Eigen::Dynamic>::Zero(6, answer.stress.cols()),
                          answer.stress)
      .minCoeff<Eigen::PropagateNaN>();
}

BOOST_AUTO_TEST_SUITE(chamber)

BOOST_AUTO_TEST_CASE(a_hand_sized_chamber_of_short_carbon_nylon_has_the_factor_the_trade_expects) {
  const MaterialAtConditions nylon =
      material_at(find_card("pa_cf", CROSSGRAIN_SOURCE_DIR), ServiceConditions{});
  const double Zt = std::get<LayeredStrength>(nylon.nominal.strength).Zt;

  const double at_14 = factor(parse_quantity("14 psi", Dimension::pressure), Zt);
  const double at_7 = factor(parse_quantity("7 psi", Dimension::pressure), Zt);

  check({Chapter::trade_facts, "chamber 14 psi",
         "chamber of 70 mm bore, 6 mm walls, ported dished ends, short-carbon nylon, judged "
         "isotropically with Z strengths: safety factor at 14 psi",
         "common practice, no source", 15.0,
         within_factor(2.0, "an order of magnitude: shapes and spools differ")},
        at_14);
  check({Chapter::trade_facts, "chamber 7 psi", "the same: factor at 7 psi over that at 14 psi",
         "common practice, no source", 2.0, fraction(1e-9, "linear in the pressure; round-off")},
        at_7 / at_14);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
