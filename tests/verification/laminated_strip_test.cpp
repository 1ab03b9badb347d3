// SPDX-License-Identifier: GPL-3.0-or-later
// A4: a strip of seven crossed plies in three-point bending.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

// A quarter: half the length, half the width. Two cells through the thick middle ply.
constexpr double half_span = 15.0, half_length = 25.0, half_width = 5.0;
constexpr std::array<double, 9> levels{-0.5, -0.4, -0.3, -0.2, 0.0, 0.2, 0.3, 0.4, 0.5};
constexpr std::array<bool, 8> crossed{false, true, false, true, true, false, true, false};
constexpr std::array<int, 3> cells{30, 3, 8};

/// Eighteen cells to the support, shrinking towards the load; twelve beyond it.
double along(double share) {
  const double at_support = 0.6;
  if (share <= at_support) return half_span * graded(share / at_support, 18, 1.5);
  return half_span + (half_length - half_span) * (share - at_support) / (1.0 - at_support);
}

Point strip_map(const Point& unit) {
  const double step = unit.z() * cells[2];
  const auto ply = std::min<std::size_t>(static_cast<std::size_t>(step + 1e-9), cells[2] - 1);
  const double z =
      levels[ply] + (levels[ply + 1] - levels[ply]) * (step - static_cast<double>(ply));
  return {along(unit.x()), half_width * unit.y(), z};
}

std::vector<int> nodes_along(const TetrahedronMesh& mesh, double x, double z) {
  std::vector<int> nodes;
  for (int node = 0; node < mesh.node_count(); ++node)
    if (std::abs(mesh.nodes(0, node) - x) < 1e-9 && std::abs(mesh.nodes(2, node) - z) < 1e-9)
      nodes.push_back(node);
  return nodes;
}

/// A force along a line of evenly spaced edges, shared as their shape functions do. Nodes ascend.
Eigen::VectorXd line_load(const TetrahedronMesh& mesh, const std::vector<int>& nodes,
                          const Point& force) {
  Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
  const std::size_t last = nodes.size() - 1;
  for (std::size_t i = 0; i <= last; ++i) {
    const double share = i % 2 == 1 ? 4.0 : (i == 0 || i == last ? 1.0 : 2.0);
    load.segment<3>(3 * nodes[i]) = share / (3.0 * static_cast<double>(last)) * force;
  }
  return load;
}

BOOST_AUTO_TEST_SUITE(laminated_strip)

BOOST_AUTO_TEST_CASE(a_strip_of_crossed_plies_bends_as_published) {
  const SolidMaterial ply = elastic_material({100e3, 5e3, 5e3, 0.4, 0.3, 0.3, 2e3, 2e3, 3e3});
  Frame turned;
  turned << Point::UnitY(), -Point::UnitX(), Point::UnitZ();
  Model model;
  model.mesh = testing::block_mesh(cells, strip_map, [](const Point& unit) {
    return BodyId{crossed[static_cast<std::size_t>(unit.z() * cells[2])] ? 2 : 1};
  });
  model.field = uniform_field(model.mesh, {ply, ply}, {Frame::Identity(), turned});
  model.held = constraints_of(model.mesh, {held_along({testing::xi_low}, Point::UnitX()),
                                           held_along({testing::eta_low}, Point::UnitY())});
  hold_nodes(model.held, nodes_along(model.mesh, half_span, -0.5), Point::UnitZ());
  // 10 N/mm over the whole; half of it on this side of mid-span.
  const Answer answer = solve(model, line_load(model.mesh, nodes_along(model.mesh, 0.0, 0.5),
                                               Point(0, 0, -10.0 * half_width / 2.0)));

  const auto row = [](const std::string& id, const std::string& what, double target,
                      const Tolerance& tolerance, double obtained) {
    check({Chapter::standard_benchmarks, "A4 " + id, "strip of seven crossed plies: " + what,
           "NAFEMS R0031/1", target, tolerance},
          obtained);
  };
  row("σx", "stress along it at mid-span, lower side", 684.0,
      fraction(1e-2,
               "the target is of beam theory; the shear of the plies near the load adds 0.9 %"),
      stress_at(model, answer, {0, 0, -0.5})[0]);
  const double between = along(0.3);
  row("τxz", "shear between the outer plies, between load and support", 4.1,
      fraction(3e-2, "one element through a ply; the target has two digits"),
      std::abs(stress_at(model, answer, {between, 0, -0.4})[4]));
  row("w", "deflection at mid-span, lower side", 1.06,
      fraction(1.5e-2, "the target has three digits"),
      -displacement_at(model, answer, {0, 0, -0.5}).z());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
