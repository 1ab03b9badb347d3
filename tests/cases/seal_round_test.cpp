// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_round.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "tests/support/seal_face.h"

using namespace crossgrain;

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// A ring of 8 to 10 mm about (3, -2) at height 5, contact greatest at x = largest and half way
/// out.
std::vector<SealPoint> ring() {
  test::FaceRule rule;
  rule.there = [](double x, double y) { return std::abs(std::hypot(x, y) - 9.0) <= 1.0 + 1e-6; };
  rule.contact = [](double x, double y) {
    return 2.0 + x / 9.0 - std::abs(std::hypot(x, y) - 9.0);
  };
  rule.wetted = [](double x, double y) { return std::hypot(x, y) < 8.3; };
  rule.exit = [](double, double) { return SealExit::outer_edge; };
  std::vector<SealPoint> places = test::seal_face(10.0, 101, rule);
  for (SealPoint& place : places) place.position += Eigen::Vector3d(3.0, -2.0, 5.0);
  return places;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(seal_round_suite)

BOOST_AUTO_TEST_CASE(angles_begin_at_x_and_go_round_upwards) {
  const SealRound round = seal_round(ring(), 36);

  BOOST_TEST((round.middle - Eigen::Vector3d(3.0, -2.0, 5.0)).norm() < 1e-9);
  BOOST_TEST(std::abs(std::remainder(round.angle_of({30.0, -2.0, 9.0}), turn)) < 1e-9);
  BOOST_TEST(std::abs(round.angle_of({3.0, 10.0, 5.0}) - 0.5 * std::numbers::pi) < 1e-9);
  BOOST_TEST(std::abs(round.angle_of({3.0, -10.0, 5.0}) - 1.5 * std::numbers::pi) < 1e-9);
  BOOST_TEST_REQUIRE(round.stations.size() == 36u);
  for (const auto& station : round.stations) {
    // Its places lie within half of a station about it.
    BOOST_TEST(std::abs(round.angle_of(station.position) - station.angle) <
               std::numbers::pi / 36.0);
  }
}

BOOST_AUTO_TEST_CASE(a_station_tells_the_greatest_contact_across_the_seal) {
  const std::vector<SealPoint> places = ring();
  const SealRound round = seal_round(places, 36);

  // A width below the places' distance averages nothing.
  const std::vector<double> contact = contact_round(round, places, 0.01);

  for (std::size_t i = 0; i < contact.size(); ++i) {
    const double expected = 2.0 + std::cos(round.stations[i].angle);
    // Places are 0.2 mm apart and a station turns by 0.087 to either side.
    BOOST_TEST(std::abs(contact[i] - expected) < 0.1 + 0.2);
  }
  BOOST_TEST(contact.front() > contact[17] + 1.5);
}

BOOST_AUTO_TEST_CASE(a_seal_across_x_begins_at_y) {
  std::vector<SealPoint> places = ring();
  for (SealPoint& place : places)
    place.position = Eigen::Vector3d(place.position.z(), place.position.x(), place.position.y());

  const SealRound round = seal_round(places);

  BOOST_TEST((round.zero - Eigen::Vector3d::UnitY()).norm() < 1e-6);
  BOOST_TEST((round.quarter - Eigen::Vector3d::UnitZ()).norm() < 1e-6);
}

BOOST_AUTO_TEST_CASE(an_open_side_has_no_station_and_nothing_has_no_round) {
  std::vector<SealPoint> places = ring();
  std::erase_if(places, [](const SealPoint& place) { return place.position.x() < 3.0; });
  for (SealPoint& place : places) place.neighbours.clear();

  BOOST_TEST(seal_round(places, 36).stations.size() < 36u);
  BOOST_CHECK_THROW(seal_round({}), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
