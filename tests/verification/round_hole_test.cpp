// SPDX-License-Identifier: GPL-3.0-or-later
// B10: round holes in a strip, in an orthotropic plate and in a thin pressurised cylinder.
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

/// Quarter of a plate about z with a round hole in its middle: xi from the hole outwards, eta from
/// the x axis to the y axis, zeta through the thickness.
struct HoledPlate {
  double radius, half_length, half_width, thickness;  ///< length along x [mm]
  std::array<int, 3> cells;  ///< an even number round the hole: one ends at the corner

  Point at(const Point& unit) const {
    const double angle = std::numbers::pi / 2.0 * unit.y(), share = 2.0 * unit.y();
    const Point hole(radius * std::cos(angle), radius * std::sin(angle), 0.0);
    const Point rim = share <= 1.0 ? Point(half_length, half_width * share, 0.0)
                                   : Point(half_length * (2.0 - share), half_width, 0.0);
    const double outwards = graded(unit.x(), cells[0], 2.5);
    return (1.0 - outwards) * hole + outwards * rim + Point(0, 0, thickness * (unit.z() - 0.5));
  }
};

/// Pulled along x at its far end by a unit stress.
/// @return the stress along x beside the hole, at mid-thickness, where Kt is defined.
double beside_the_hole(const HoledPlate& plate, const SolidMaterial& material) {
  Model model;
  model.mesh = testing::block_mesh(plate.cells, [&](const Point& unit) { return plate.at(unit); });
  model.field = same_everywhere(model.mesh, material, Frame::Identity());
  model.held = constraints_of(model.mesh, {held_along({testing::eta_low}, Point::UnitY()),
                                           held_along({testing::eta_high}, Point::UnitX())});
  const Eigen::VectorXd load = traction_load(model.mesh, {testing::xi_high}, [&](const Point& at) {
    return at.x() > plate.half_length - 1e-9 ? Point(1, 0, 0) : Point(0, 0, 0);
  });
  return stress_at(model, solve(model, load), {0.0, plate.radius, 0.0})[0];
}

BOOST_AUTO_TEST_SUITE(round_holes)

BOOST_AUTO_TEST_CASE(a_hole_in_a_strip_concentrates_stress_as_heywood_says) {
  for (const double share : {0.2, 0.3, 0.5}) {
    const double width = 20.0, radius = share * width / 2.0;
    const HoledPlate strip{radius, 40.0, width / 2.0, 0.05 * radius, {16, 16, 2}};
    const std::string ratio = std::to_string(share).substr(0, 3);
    check({Chapter::stress_concentrations, "B10 strip d/W " + ratio,
           "hole d in a strip W = 20, d/W = " + ratio + ": largest stress over the net section's",
           "Heywood's formula 2 + (1 − d/W)³ (handbook form, from memory)",
           2.0 + std::pow(1.0 - share, 3),
           fraction(2e-2, "the formula is fitted to within 2 % or so")},
          beside_the_hole(strip, elastic_material(isotropic(2000, 0.3))) * (1.0 - share));
  }
}

BOOST_AUTO_TEST_CASE(a_hole_in_an_orthotropic_plate_concentrates_stress_as_lekhnitskii_says) {
  // Short-carbon PLA of the literature; across the plate the constants do not matter.
  const double E1 = 7541, E2 = 3920, nu12 = 0.4, G12 = 1268;
  const auto lekhnitskii = [&](double strong, double weak, double nu) {
    return 1.0 + std::sqrt(2.0 * (std::sqrt(strong / weak) - nu) + strong / G12);
  };
  const HoledPlate plate{1.0, 30.0, 30.0, 0.05, {24, 32, 2}};
  const auto row = [&](const std::string& along, const OrthotropicConstants& constants,
                       double target) {
    check({Chapter::stress_concentrations, "B10 orthotropic " + along,
           "hole in a plate of 30 diameters, E1 7541 E2 3920 ν12 0.4 G12 1268, pulled along " +
               along + ": largest stress over the far one",
           "Lekhnitskii, Anisotropic Plates (1968), infinite plate, exact", target,
           fraction(
               1e-2,
               "plane stress: thickness a twentieth of the radius; 30 diameters are not infinite")},
          beside_the_hole(plate, elastic_material(constants)));
  };
  row("1", {E1, E2, E2, nu12, 0.3, 0.3, 1268, 1268, G12}, lekhnitskii(E1, E2, nu12));
  row("2", {E2, E1, E2, nu12 * E2 / E1, 0.3, 0.3, 1268, 1268, G12},
      lekhnitskii(E2, E1, nu12 * E2 / E1));
}

BOOST_AUTO_TEST_CASE(a_small_hole_in_a_thin_cylinder_raises_the_hoop_stress_two_and_a_half_times) {
  // Hole of the wall's thickness in radius, far smaller than sqrt(R t) = 10 walls; its plug hands
  // its small thrust to the far field, for the plate it hangs in carries the rest.
  const double R = 100.0, t = 1.0, p = 0.01;
  const HoledPlate flat{1.0, 25.0, 25.0, t, {18, 16, 2}};
  // x along the hoop, y along the axis.
  const auto onto_cylinder = [&](const Point& at) {
    const double angle = at.x() / R, r = R + at.z();
    return Point(r * std::sin(angle), at.y(), r * std::cos(angle));
  };
  Model model;
  model.mesh = testing::block_mesh(flat.cells,
                                   [&](const Point& unit) { return onto_cylinder(flat.at(unit)); });
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(2000, 0.3)), skew_frame());
  // The far sides share one face: its nodes on the cut along the axis slide in that.
  const double angle = flat.half_length / R;
  std::vector<int> cut;
  for (int node : testing::nodes_on(model.mesh, {testing::xi_high}))
    if (model.mesh.nodes(1, node) < flat.half_width - 1e-9 ||
        std::abs(std::atan2(model.mesh.nodes(0, node), model.mesh.nodes(2, node)) - angle) < 1e-9)
      cut.push_back(node);
  model.held = constraints_of(model.mesh, {held_along({testing::eta_low}, Point::UnitY()),
                                           held_along({testing::eta_high}, Point::UnitX())});
  hold_nodes(model.held, cut, Point(std::cos(angle), 0.0, -std::sin(angle)));
  const double inner = R - t / 2.0, outer = R + t / 2.0;
  const double axial = p * inner * inner / (outer * outer - inner * inner);
  const Answer answer = solve(
      model, pressure_load(model.mesh, {testing::zeta_low}, [&](const Point&) { return p; }) +
                 traction_load(model.mesh, {testing::xi_high}, [&](const Point& at) {
                   return at.y() > flat.half_width - 1e-9 ? Point(0, axial, 0) : Point(0, 0, 0);
                 }));

  // At the hole's end along the axis, mid-wall.
  const Point beside = onto_cylinder(flat.at({0.0, 1.0, 0.5}));
  check(
      {Chapter::stress_concentrations, "B10 cylinder",
       "hole of radius 1 in a closed cylinder R 100 t 1: largest hoop stress, mid-wall, over p R / "
       "t",
       "Kirsch under two to one: 3 − 1/2 (handbook form, from memory)", 2.5,
       fraction(5e-2, "the hole is small, not vanishing: a²/(R t) = 0.01")},
      stress_at(model, answer, beside)[0] / (p * R / t));
}

BOOST_AUTO_TEST_CASE(a_small_hole_in_a_thin_sphere_doubles_its_stress) {
  // A wedge round the hole's axis, from its rim to the equator.
  const double R = 100.0, t = 1.0, p = 0.01, hole = 1.0, wedge = 0.05;
  const auto at = [&](const Point& unit) {
    const double from = std::asin(hole / R);
    const double polar = from + (std::numbers::pi / 2.0 - from) * graded(unit.x(), 60, 3.0);
    const double r = R + t * (unit.z() - 0.5), turn = wedge * unit.y();
    return Point(r * std::sin(polar) * std::cos(turn), r * std::sin(polar) * std::sin(turn),
                 r * std::cos(polar));
  };
  Model model;
  model.mesh = testing::block_mesh({60, 1, 2}, at);
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(2000, 0.3)), skew_frame());
  model.held = constraints_of(
      model.mesh, {held_along({testing::eta_low}, Point::UnitY()),
                   held_along({testing::eta_high}, Point(-std::sin(wedge), std::cos(wedge), 0)),
                   held_along({testing::xi_high}, Point::UnitZ())});
  const Answer answer =
      solve(model, pressure_load(model.mesh, {testing::zeta_low}, [&](const Point&) { return p; }));

  check({Chapter::stress_concentrations, "B10 sphere",
         "hole of radius 1 in a sphere R 100 t 1: hoop stress at its rim, mid-wall, over p R / 2 t",
         "Kirsch under equal pulls: 3 − 1 (handbook form, from memory)", 2.0,
         fraction(5e-2, "the hole is small, not vanishing: a²/(R t) = 0.01")},
        stress_at(model, answer, at({0.0, 0.0, 0.5}))[1] / (p * R / (2.0 * t)));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
