// SPDX-License-Identifier: GPL-3.0-or-later
// The quarter of an elliptic plate with an elliptic hole: A1 (membrane) and A2 (bending).
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

constexpr double metre = 1000.0;
const Point along_x = Point::UnitX(), along_y = Point::UnitY(), along_z = Point::UnitZ();

/// xi: from the hole to the outer edge, eta: from y = 0 to x = 0, zeta: through the thickness.
/// @param grading  power by which elements shrink towards the point D.
testing::BlockMap plate_map(const std::array<int, 3>& cells, double thickness, double grading) {
  return [=](const Point& unit) {
    const double outwards = graded(unit.x(), cells[0], grading);
    const double angle = std::numbers::pi / 2.0 * graded(unit.y(), cells[1], grading);
    const Point hole(2.0 * std::cos(angle), std::sin(angle), 0.0);
    const Point edge(3.25 * std::cos(angle), 2.75 * std::sin(angle), 0.0);
    return Point(metre * ((1.0 - outwards) * hole + outwards * edge) +
                 Point(0.0, 0.0, thickness * (unit.z() - 0.5)));
  };
}

Model plate(const std::array<int, 3>& cells, double thickness, double grading,
            std::vector<Support> further_supports) {
  Model model;
  model.mesh = testing::block_mesh(cells, plate_map(cells, thickness, grading));
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(210e3, 0.3)), skew_frame());
  further_supports.push_back(held_along({testing::eta_low}, along_y));
  further_supports.push_back(held_along({testing::eta_high}, along_x));
  model.held = constraints_of(model.mesh, further_supports);
  return model;
}

std::vector<int> mid_plane_nodes(const TetrahedronMesh& mesh, const std::vector<int>& among) {
  std::vector<int> nodes;
  for (int node : among)
    if (std::abs(mesh.nodes(2, node)) < 1e-6) nodes.push_back(node);
  return nodes;
}

double membrane_stress(const std::array<int, 3>& cells, double grading) {
  Model model = plate(cells, 100.0, grading, {});
  std::vector<int> all;
  for (int node = 0; node < model.mesh.node_count(); ++node) all.push_back(node);
  hold_nodes(model.held, mid_plane_nodes(model.mesh, all), along_z);
  const Answer answer = solve(
      model, pressure_load(model.mesh, {testing::xi_high}, [](const Point&) { return -10.0; }));
  return stress_at(model, answer, Point(2.0 * metre, 0.0, 0.0))[1];
}

double bending_stress(const std::array<int, 3>& cells, double grading) {
  Model model =
      plate(cells, 600.0, grading,
            {held_along({testing::xi_high}, along_x), held_along({testing::xi_high}, along_y)});
  hold_nodes(model.held,
             mid_plane_nodes(model.mesh, testing::nodes_on(model.mesh, {testing::xi_high})),
             along_z);
  const Answer answer = solve(
      model, pressure_load(model.mesh, {testing::zeta_high}, [](const Point&) { return 1.0; }));
  return stress_at(model, answer, Point(2.0 * metre, 0.0, 300.0))[1];
}

BOOST_AUTO_TEST_SUITE(elliptic_plate)

BOOST_AUTO_TEST_CASE(an_elliptic_membrane_peaks_at_the_end_of_its_hole) {
  check({Chapter::standard_benchmarks, "A1 σyy(D)",
         "elliptic membrane as a solid 0.1 m thick: stress at D", "NAFEMS LE1 (TNSB rev. 3, 1990)",
         92.7, fraction(1e-2, "graded mesh of solids; the target has three digits")},
        membrane_stress({10, 16, 2}, 1.5));
}

BOOST_AUTO_TEST_CASE(a_thick_elliptic_plate_bends_as_published) {
  const auto row = [](const std::string& mesh, const Tolerance& tolerance, double obtained) {
    check({Chapter::standard_benchmarks, "A2 σyy(D) " + mesh,
           "thick elliptic plate under pressure: stress at D, " + mesh + " mesh",
           "NAFEMS LE10 (TNSB rev. 3, 1990)", -5.38, tolerance},
          obtained);
  };
  row("modest", fraction(3e-2, "two elements through the thickness"),
      bending_stress({4, 6, 2}, 1.3));
  row("graded", fraction(1e-2, "graded towards D, four elements through the thickness"),
      bending_stress({8, 10, 4}, 1.5));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
