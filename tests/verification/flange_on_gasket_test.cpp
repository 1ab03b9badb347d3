// SPDX-License-Identifier: GPL-3.0-or-later
// A gasket under a slender flange between equal screws, as solid bodies: beam on an elastic
// foundation.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/support/joined_blocks.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using namespace testing;

const char* const hetenyi = "Hetenyi, Beams on Elastic Foundation (1946), equal loads; exact";
constexpr double pitch = 300.0, height = 10.0, width = 10.0, E = 2000.0;  // mm, MPa
constexpr double gasket = 2.0;                                            // mm
constexpr double mean_pressure = 0.01;                                    // MPa

/// Gasket pressure over what the screws make in the mean.
struct Contact {
  double at_screw, between;
};

/// Half a pitch, from the screw at x = 0 to the middle, on a gasket that lies on a rigid body.
/// @param relieved  share of the mean that a fluid under the flange takes off.
Contact contact(double bow, double relieved) {
  constexpr double half = 0.5 * pitch;
  constexpr int cells_along = 40;
  const double stiffness =
      4.0 * E * (width * std::pow(height, 3) / 12.0) * std::pow(bow / pitch, 4);  // N/mm^2
  auto flange = box_mesh({cells_along, 2, 2}, {half, width, height});
  flange.nodes.row(2).array() += gasket;
  auto base = box_mesh({cells_along, 1, 1}, {half, width, 1.0});
  base.nodes.row(2).array() -= 1.0;
  const auto mesh = two_bodies(base, flange);
  const auto material = elastic_material(isotropic(E, 0.35));
  const auto field =
      uniform_field(mesh, {material, material}, {Frame::Identity(), Frame::Identity()});
  const FaceId at_screw = of_second(xi_low), middle = of_second(xi_high),
               underside = of_second(zeta_low);
  std::vector<Support> held{
      held_along({at_screw, middle}, Eigen::Vector3d::UnitX()),
      held_along({of_second(eta_low)}, Eigen::Vector3d::UnitY()),
      {"rigid", {xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high}, Hold::all}};
  StaticSolver solver(mesh, constraints_of(mesh, held), {.method = SolverMethod::direct});
  solver.set_material(field);
  const Bedding bedding{.modulus = stiffness * gasket / width, .thickness = gasket};
  const auto pair = pair_between(mesh, field, {zeta_high}, {underside}, bedding, 2.0 * gasket);
  JointSolver joint(mesh, solver, {{pair}, {}});

  // Half of a screw's force, over the section above it.
  const Eigen::Vector3d shear(0.0, 0.0, -mean_pressure * half / height);
  Eigen::VectorXd load = traction_load(mesh, {at_screw}, [&](const auto&) { return shear; });
  load += pressure_load(mesh, {underside}, [&](const auto&) { return relieved * mean_pressure; });
  const auto found = joint.solve({load, {}, {}, {}}).pairs[0].pressure;

  // In the first and the last cell; the curve is flat there.
  const auto mean_within = [&](double from, double to) {
    double force = 0.0, area = 0.0;
    for (std::size_t p = 0; p < pair.points.size(); ++p) {
      const auto& point = pair.points[p];
      if (point.position.x() < from || point.position.x() > to) continue;
      area += point.area;
      force += point.area * found[static_cast<Eigen::Index>(p)];
    }
    return force / area / mean_pressure;
  };
  constexpr double cell = half / cells_along;
  return {mean_within(0.0, cell), mean_within(half - cell, half)};
}

BOOST_AUTO_TEST_SUITE(flange_on_gasket)

BOOST_AUTO_TEST_CASE(a_gasket_is_pressed_less_between_the_screws) {
  struct Row {
    const char* name;
    double bow, least_over_greatest;
  };
  const Row rows[] = {
      {"1", 1.0, 0.990}, {"1.5", 1.5, 0.9493}, {"2", 2.0, 0.852}, {"π", std::numbers::pi, 0.4345}};
  for (const Row& row : rows) {
    const Contact found = contact(row.bow, 0.0);
    check({Chapter::gaskets, std::string("B11 field φ = ") + row.name,
           std::string("flange 10 x 10 on a gasket, screws 300 apart, as solids, φ = ") + row.name +
               ": contact between screws over that at a screw",
           hetenyi, row.least_over_greatest, fraction(3e-2, "a slender beam; it shears, too")},
          found.between / found.at_screw);
  }
}

BOOST_AUTO_TEST_CASE(what_the_fluid_takes_off_is_missed_between_the_screws) {
  check(
      {Chapter::gaskets, "B11 field relieved",
       "the same, φ = π, the fluid takes off 60 % of the mean: what stays between the screws, of "
       "the mean",
       hetenyi, 0.026, absolute(5e-3, "0.626 less 0.6: 1 % of what was there, as the beam shears")},
      contact(std::numbers::pi, 0.6).between);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
