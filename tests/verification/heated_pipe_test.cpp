// SPDX-License-Identifier: GPL-3.0-or-later
// A pipe that is warm inside and cold outside: from the temperatures of its faces to the stress.
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/heat/steady_temperature.h"
#include "solver/loads/loads.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

constexpr double inner = 20.0, outer = 30.0;               // radii [mm]
constexpr double warmer = 40.0;                            // inside than outside [K]
constexpr double E = 2000.0, nu = 0.35, expansion = 7e-5;  // [MPa], [-], [1/K]

/// Hoop stress on the bore and on the outside [MPa].
struct HoopStress {
  double inside, outside;
};

HoopStress solved(int cells_through) {
  const CylinderSector sector{inner, outer, 0.5, 10.0};
  Model model;
  model.mesh = testing::block_mesh({cells_through, 2 * cells_through, 2}, sector.map());
  model.field = same_everywhere(
      model.mesh, elastic_material(isotropic(E, nu), Eigen::Vector3d::Constant(expansion)),
      skew_frame());
  auto held = sector.symmetry();
  held.push_back(held_along({bottom, top}, Eigen::Vector3d::UnitZ()));
  model.held = constraints_of(model.mesh, held);
  const Eigen::VectorXd heat =
      steady_temperature(model.mesh, {{{bore}, warmer}, {{testing::xi_high}, 0.0}});
  const Answer answer = solve(model, thermal_load(model.mesh, model.field, heat), heat);
  const auto hoop_at = [&](double radius) {
    const Eigen::Vector3d place = sector.at(radius, 0.5, 5.0);
    const Eigen::Vector3d round =
        Eigen::Vector3d::UnitZ().cross(Eigen::Vector3d(place.x(), place.y(), 0.0).normalized());
    return normal_stress(stress_at(model, answer, place), round);
  };
  return {hoop_at(inner), hoop_at(outer)};
}

/// Of a long cylinder, whatever holds its ends.
double closed_form(double radius) {
  const double wall = std::log(outer / inner), a2 = inner * inner, b2 = outer * outer;
  return E * expansion * warmer / (2.0 * (1.0 - nu) * wall) *
         (1.0 - std::log(outer / radius) - a2 / (b2 - a2) * (1.0 + b2 / (radius * radius)) * wall);
}

BOOST_AUTO_TEST_SUITE(heated_pipe)

BOOST_AUTO_TEST_CASE(a_warm_bore_is_squeezed_and_a_cold_outside_pulled) {
  const HoopStress hoop = solved(6);

  const auto row = [](const char* where, double radius, double obtained) {
    check(
        {Chapter::cylinders_and_spheres, std::string("warm pipe ") + where,
         std::string("pipe 20 to 30, 40 K warmer inside, heat conducted: hoop stress ") + where,
         "Timoshenko and Goodier, Theory of Elasticity: long hollow cylinder, steady flow of heat",
         closed_form(radius), fraction(0.01, "six elements through the wall, nodal stress")},
        obtained);
  };
  row("inside", inner, hoop.inside);
  row("outside", outer, hoop.outside);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
