// SPDX-License-Identifier: GPL-3.0-or-later
// The water filter's flange and screw circle, known from case file and part. Expected sizes are
// those that tools/parts draws with.
#include "cases/simple_shapes/flange_rings.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/face_choice/face_choice.h"
#include "cases/second_opinions/flange_formulas.h"
#include "cases/second_opinions/screwed_seals.h"
#include "cases/simple_shapes/simple_shapes.h"
#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// An example's part and what is known of its joint.
struct Example {
  CaseFile read;
  Geometry geometry;
  Features features;
  std::vector<SimpleShape> shapes;
  std::vector<ScrewedSeal> seals;

  Example(const std::string& name, const std::vector<std::string>& bodies)
      : read(read_case(std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples" / name /
                       (name + ".toml"))),
        geometry(import_step(StepSource{read.bodies[0].step_file, 1.0, bodies})),
        features(find_features(geometry)),
        shapes(simple_shapes(geometry,
                             choose_faces(geometry, features, read.pressures[0].faces).faces)),
        seals(screwed_seals(read, geometry, features)) {}

  std::optional<FlangeRing> flange_at(const ScrewedSeal& seal) const {
    return flange_ring(
        geometry, {seal.body, seal.face, seal.centre, seal.axis, seal.middle_radius(), seal.holes},
        shapes);
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(flange_rings)

BOOST_AUTO_TEST_CASE(a_bowl_s_flange_is_a_ring_on_its_tube) {
  const Example bowl("filter-bowl", {"bowl"});

  BOOST_REQUIRE(bowl.seals.size() == 1u);
  BOOST_TEST(bowl.seals[0].screw_circle_radius == 46.5, tolerance(1e-6));
  BOOST_TEST(bowl.seals[0].middle_radius() == 36.0, tolerance(1e-6));
  BOOST_TEST(bowl.seals[0].holes.size() == 8u);
  const auto ring = bowl.flange_at(bowl.seals[0]);
  BOOST_REQUIRE(ring.has_value());
  BOOST_TEST(ring->inner_radius == 30.0, tolerance(1e-6));
  BOOST_TEST(ring->outer_radius == 54.0, tolerance(1e-6));
  BOOST_TEST(ring->height == 14.0, tolerance(1e-6));
  BOOST_REQUIRE(ring->tube.has_value());
  BOOST_TEST(ring->tube->wall == 6.5, tolerance(1e-6));
  // Outside the tube's wall, up to where its fillet of 5 mm is still felt.
  BOOST_TEST(ring->place_radius > 36.5);
  BOOST_TEST(ring->place_radius < 36.5 + 5.0 + 0.6);
  // Midway between two screws: half the pitch less the hole's radius.
  BOOST_TEST(ring->place.to_opening > 10.0);
}

BOOST_AUTO_TEST_CASE(a_lid_of_two_bodies_has_a_seal_and_no_flange_ring) {
  const Example housing("filter-housing", {"bowl", "lid"});

  BOOST_REQUIRE(housing.seals.size() == 2u);
  BOOST_TEST(housing.flange_at(housing.seals[0]).has_value());
  BOOST_TEST(!housing.flange_at(housing.seals[1]).has_value());
}

BOOST_AUTO_TEST_CASE(the_fluid_s_moment_is_that_of_its_forces) {
  // By hand: 2 MPa on a bore of 10 and a ring of 10 to 12, answered at 20, the wall's middle at 11.
  const FlangeThrust thrust{.pressure = 2.0,
                            .bore_radius = 10.0,
                            .wall_radius = 11.0,
                            .seal_radius = 12.0,
                            .counter_radius = 20.0,
                            .closed_end = true};
  FlangeThrust open = thrust;
  open.closed_end = false;

  BOOST_TEST(thrust.moment() == 2 * M_PI * (100 * 9.0 + 44 * 9.0), tolerance(1e-12));
  BOOST_TEST(open.moment() == 2 * M_PI * 44 * 9.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_tube_takes_the_more_of_the_moment_the_stiffer_it_is) {
  const RingSize ring{30, 54, 14};
  const auto turn = [&](double wall) {
    return ring_on_tube(1000.0, 0.0, ring, {30.0 + wall / 2.0, wall, true}, 0.35).turn;
  };
  // Next to no tube leaves the loose ring.
  BOOST_TEST(turn(0.01) == ring_turn(1000.0, ring, 1.0), tolerance(1e-3));
  BOOST_TEST(turn(6.5) < 0.5 * turn(0.01));
  BOOST_TEST(turn(8.0) < turn(6.5));
}

BOOST_AUTO_TEST_CASE(a_ring_as_wide_as_the_tube_under_pressure_stays_unturned_by_its_own) {
  // A ring that is the tube's own wall widens with it, p R^2 / t, and does not turn.
  const RingMotion motion = ring_on_tube(0.0, 1.0, {49.9, 50.1, 4.0}, {50.0, 0.2, false}, 0.3);
  BOOST_TEST(motion.widening == 50.0 * 50.0 / 0.2, tolerance(5e-3));
  BOOST_TEST(std::abs(motion.turn) * 2.0 < 5e-3 * motion.widening);
}

BOOST_AUTO_TEST_SUITE_END()
