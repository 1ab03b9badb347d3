// SPDX-License-Identifier: GPL-3.0-or-later
// B6: round plates under pressure, clamped and supported.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/loads/loads.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

constexpr double a = 50.0, t = 5.0, p = 0.1, nu = 0.35;

struct PressedPlate {
  Model model;
  Answer answer;
};

PressedPlate press(bool clamped) {
  const QuarterPlate shape{a, t, {6, 10, 4}};
  PressedPlate plate;
  Model& model = plate.model;
  model.mesh = shape.mesh();
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(2000, nu)), skew_frame());
  std::vector<Support> supports = shape.symmetry();
  if (clamped) supports.push_back({"clamp", QuarterPlate::rim(), Hold::all});
  model.held = constraints_of(model.mesh, supports);
  if (!clamped) {
    std::vector<int> line;
    for (int node : testing::nodes_on(model.mesh, QuarterPlate::rim()))
      if (std::abs(model.mesh.nodes(2, node)) < 1e-6) line.push_back(node);
    hold_nodes(model.held, line, Point::UnitZ());
  }
  plate.answer = solve(model, pressure_load(model.mesh, QuarterPlate::upper_faces(),
                                            [](const Point&) { return p; }));
  return plate;
}

void check_plate(const std::string& id, const std::string& what, double target,
                 const Tolerance& tolerance, double obtained) {
  check({Chapter::plates, id, what, "Timoshenko, plate theory (handbook form, from memory)", target,
         tolerance},
        obtained);
}

const Tolerance thick_plate = fraction(
    1.5e-2, "the theory leaves out terms of (t/a)² = 1 % and takes the shear deflection as 5 %");

BOOST_AUTO_TEST_SUITE(round_plates)

BOOST_AUTO_TEST_CASE(a_clamped_round_plate_bends_as_plate_theory_says) {
  const PressedPlate plate = press(true);

  check_plate("B6 clamped w", "a 50 t 5, p 0.1, E 2000 ν 0.35: deflection with its shear part",
              0.411328 + 0.0203, thick_plate,
              -displacement_at(plate.model, plate.answer, Point::Zero()).z());
  check_plate("B6 clamped σ(0)", "stress at the centre, lower side", 5.0625, thick_plate,
              stress_at(plate.model, plate.answer, {0, 0, -t / 2})[0]);
  // The clamp is a re-entrant corner and singular in a solid. The largest radial stress of the
  // theory there is 7.5; half a thickness inwards it says 3 p / (8 t^2) ((1+nu) a^2 - (3+nu) r^2).
  const double r = a - t / 2.0;
  check_plate("B6 clamped σ(a − t/2)", "radial stress half a thickness from the clamp, lower side",
              3.0 * p / (8.0 * t * t) * ((1.0 + nu) * a * a - (3.0 + nu) * r * r),
              fraction(5e-2, "beside the clamp's singularity, which plate theory does not have"),
              stress_at(plate.model, plate.answer, {r, 0, -t / 2})[0]);
}

BOOST_AUTO_TEST_CASE(a_supported_round_plate_bends_as_plate_theory_says) {
  const PressedPlate plate = press(false);

  check_plate("B6 supported w", "supported at mid-height: deflection with its shear part",
              1.630078 + 0.0203, thick_plate,
              -displacement_at(plate.model, plate.answer, Point::Zero()).z());
  check_plate("B6 supported σ(0)", "stress at the centre, lower side", 12.5625, thick_plate,
              stress_at(plate.model, plate.answer, {0, 0, -t / 2})[0]);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
