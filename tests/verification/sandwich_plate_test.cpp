// SPDX-License-Identifier: GPL-3.0-or-later
// A6: a square sandwich plate of stiff faces on a soft core, simply supported, under pressure.
#include <boost/test/unit_test.hpp>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

// Inches and pounds, as published.
constexpr double half_side = 5.0, core = 0.75, face = 0.028, pressure = 100.0;
constexpr std::array<double, 5> levels{-core / 2 - face, -core / 2, 0.0, core / 2, core / 2 + face};
constexpr std::array<int, 3> cells{10, 10, 4};

Point sandwich_map(const Point& unit) {
  const double step = unit.z() * cells[2];
  const auto layer = std::min<std::size_t>(static_cast<std::size_t>(step + 1e-9), cells[2] - 1);
  return {
      half_side * unit.x(), half_side * unit.y(),
      levels[layer] + (levels[layer + 1] - levels[layer]) * (step - static_cast<double>(layer))};
}

BOOST_AUTO_TEST_SUITE(sandwich_plate)

BOOST_AUTO_TEST_CASE(a_sandwich_plate_sags_as_published) {
  const SolidMaterial faces =
      elastic_material({1e7, 4e6, 4e6, 0.3, 0.3, 0.3, 1.875e6, 1.875e6, 1.875e6});
  const SolidMaterial soft = elastic_material({10, 10, 1e5, 0, 0, 0, 1.2e4, 3e4, 10});
  Model model;
  model.mesh = testing::block_mesh(cells, sandwich_map, [](const Point& unit) {
    return BodyId{unit.z() > 0.25 && unit.z() < 0.75 ? 2 : 1};
  });
  model.field = uniform_field(model.mesh, {faces, soft}, {Frame::Identity(), Frame::Identity()});
  // Quarter; a rim that neither sinks nor slips along itself is the support of Navier's series.
  const Point x = Point::UnitX(), y = Point::UnitY(), z = Point::UnitZ();
  model.held = constraints_of(
      model.mesh, {held_along({testing::xi_low}, x), held_along({testing::eta_low}, y),
                   held_along({testing::xi_high, testing::eta_high}, z),
                   held_along({testing::xi_high}, y), held_along({testing::eta_high}, x)});

  const Answer answer = solve(model, pressure_load(model.mesh, {testing::zeta_high},
                                                   [](const Point&) { return pressure; }));

  check({Chapter::standard_benchmarks, "A6 w",
         "sandwich plate 10 × 10 in, 100 psi: deflection at its centre [in]", "NAFEMS R0031/3",
         0.123, fraction(2e-2, "the target has three digits; series give 0.1222 to 0.1255")},
        -displacement_at(model, answer, Point::Zero()).z());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
