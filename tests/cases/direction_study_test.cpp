// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies that are joined by faces that can part, printed one way and another.
#include "cases/studies/direction_study.h"

#include <boost/test/unit_test.hpp>

#include "tests/cases/bars_with_gap.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

const Eigen::Vector3d upright(0, 0, 1), lying(1, 0, 0);

/// From the gap's closing on both bars share what comes on top: (q + closes) / 2 of the pull in the
/// lower one.
double followed_by_hand(double strength) { return 2.0 * strength / pull - closes; }

}  // namespace

BOOST_AUTO_TEST_SUITE(direction_study)

// The joint is solved within a hundredth of its limit.
BOOST_AUTO_TEST_CASE(joined_bars_are_followed_in_every_direction) {
  BarsWithGap bars;

  const auto rows = study_directions(bars.solver, bars.model(), bars.loading, bars.field, {},
                                     {{"upright", upright}, {"lying", lying}});

  BOOST_TEST_REQUIRE(rows.size() == 2u);
  // On all loads together stress grows in proportion.
  BOOST_TEST(*rows[0].factor.value == across_layers / pull, tolerance(1e-3));
  BOOST_TEST(*rows[1].factor.value == in_layer / pull, tolerance(1e-3));
  BOOST_TEST_REQUIRE(rows[0].cases.size() == 1u);
  BOOST_TEST(rows[0].cases[0].load_case == "working");
  BOOST_TEST(*rows[0].cases[0].pressure_factor->value == followed_by_hand(across_layers),
             tolerance(0.02));
  // Stress is uniform in a bar, but for what faces that touch give: a mesh follows it.
  for (const DirectionRow& row : rows) {
    BOOST_TEST_REQUIRE(row.mesh_error.has_value());
    BOOST_TEST(*row.mesh_error < 1e-3 * *row.factor.value);
  }
  BOOST_TEST(*rows[1].cases[0].pressure_factor->value == followed_by_hand(in_layer),
             tolerance(0.02));
}

BOOST_AUTO_TEST_CASE(as_in_the_case_every_body_keeps_its_own_direction) {
  BarsWithGap bars;
  // The lower bar, which is pulled, lies; the upper one stands.
  MaterialField field =
      uniform_field(bars.mesh, bars.field.materials, {frame_along(lying), frame_along(upright)});

  const DirectionRow row =
      study_printing(bars.solver, bars.model(), bars.loading, field, {}, "as in the case").row;

  BOOST_TEST_REQUIRE(row.of_bodies.size() == 2u);
  BOOST_TEST((row.of_bodies[0].build == lying));
  BOOST_TEST((row.of_bodies[1].build == upright));
  BOOST_TEST(row.name == "as in the case");
  BOOST_TEST(*row.factor.value == in_layer / pull, tolerance(1e-3));
  BOOST_TEST(row.governing->body == "lower");
}

BOOST_AUTO_TEST_SUITE_END()
