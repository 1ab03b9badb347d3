// SPDX-License-Identifier: GPL-3.0-or-later
// The bow of a flange from screw to screw, out of gaps that are known in closed form.
#include "cases/joint/measured_bow.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>
#include <numbers>
#include <stdexcept>

#include "cases/joint/flange_bow.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

constexpr int screw_count = 8, round_about = 96, across = 3;
constexpr double full_turn = 2.0 * std::numbers::pi;

/// A ring of 33 to 39 mm, in sectors of uneven size, since meshes are.
std::vector<SealPoint> ring() {
  std::vector<SealPoint> places;
  for (int i = 0; i < round_about; ++i)
    for (int j = 0; j < across; ++j) {
      const double angle = full_turn * (i + 0.3 * std::sin(1.7 * i + j)) / round_about;
      const double radius = 34.0 + 2.0 * j;
      SealPoint place{};
      place.position = Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle), 2.0);
      place.area = radius * (1.0 + 0.3 * std::cos(2.9 * i));
      places.push_back(place);
    }
  return places;
}

std::vector<Eigen::Vector3d> screws() {
  std::vector<Eigen::Vector3d> seats;
  for (int i = 0; i < screw_count; ++i) {
    const double angle = full_turn * (3 * i % screw_count) / screw_count;  // in no order
    seats.emplace_back(46.5 * std::cos(angle), 46.5 * std::sin(angle), 18.0);
  }
  return seats;
}

using Gap = std::function<double(double angle, double radius)>;

std::vector<double> gaps(const std::vector<SealPoint>& places, const Gap& gap) {
  std::vector<double> values;
  for (const SealPoint& place : places)
    values.push_back(
        gap(std::atan2(place.position.y(), place.position.x()), place.position.head<2>().norm()));
  return values;
}

/// Deflection of a long beam on an elastic foundation under equal loads, over its mean (Hetenyi,
/// Beams on Elastic Foundation, 1946): from the screw at share 0 to the next at 1.
double pressed(double bow, double share) {
  double sum = 0.0;
  for (int n = -40; n <= 40; ++n) {
    const double z = std::abs(share - n) * bow;
    sum += std::exp(-z) * (std::cos(z) + std::sin(z));
  }
  return 0.5 * bow * sum;
}

// How far the middle of a ring of uneven sectors lies off its centre turns the angles a little.
constexpr double of_the_middle = 0.02;

}  // namespace

BOOST_AUTO_TEST_SUITE(measured_bow)

BOOST_AUTO_TEST_CASE(a_wave_from_screw_to_screw_is_found_in_every_span) {
  const auto places = ring();
  const auto spans = span_bows(
      places,
      gaps(places, [](double a, double) { return -0.5 - 0.01 * std::cos(screw_count * a); }),
      screws());

  BOOST_TEST_REQUIRE(spans.size() == std::size_t{screw_count});
  for (const SpanBow& span : spans) {
    BOOST_TEST(span.bow() == 0.02, tolerance(of_the_middle));
    BOOST_TEST(span.at_screws == -0.51, tolerance(1e-3));
    // Neighbours on the ring, whatever their place in the list: 2 x 46.5 sin(22.5 degrees) apart.
    BOOST_TEST((screws()[span.from] - screws()[span.to]).norm() == 35.59, tolerance(1e-3));
  }
}

BOOST_AUTO_TEST_CASE(a_flange_that_turns_or_tilts_does_not_bow) {
  const auto places = ring();
  // Turned about the screws: wider towards the bore; tilted as a whole: a slope along each span.
  const auto turned = gaps(places, [](double, double radius) { return 0.004 * (36.0 - radius); });
  const auto tilted =
      gaps(places, [](double a, double radius) { return 1e-4 * radius * std::sin(a); });

  for (const SpanBow& span : span_bows(places, turned, screws()))
    BOOST_TEST(std::abs(span.bow()) < 1e-4);  // 0.024 mm from edge to edge
  for (const SpanBow& span : span_bows(places, tilted, screws()))
    BOOST_TEST(std::abs(span.bow()) < 1e-12);  // 0.008 mm from side to side
}

BOOST_AUTO_TEST_CASE(a_beam_on_an_elastic_foundation_has_its_own_bow_number) {
  const auto places = ring();
  for (const double bow : {1.0, 1.5, 2.0, std::numbers::pi}) {
    const auto squeezed = gaps(places, [&](double a, double) {
      const double turns = a / full_turn + 1.0;
      return -0.3 * pressed(bow, turns * screw_count - std::floor(turns * screw_count));
    });
    const auto spans = span_bows(places, squeezed, screws());

    BOOST_TEST_REQUIRE(!spans.empty());
    for (const SpanBow& span : spans) {
      // The beam's curve is a wave but for 1 % in its overtones; phi is a fourth root.
      BOOST_TEST(bow_number(span.between / span.at_screws) == bow, tolerance(0.02));
    }
  }
}

BOOST_AUTO_TEST_CASE(screws_that_do_not_surround_a_seal_say_nothing) {
  const auto places = ring();
  const std::vector<double> even(places.size(), -0.4);

  BOOST_TEST(span_bows(places, even, {}).empty());
  BOOST_TEST(span_bows(places, even, {{46.5, 0, 18}, {0, 46.5, 18}, {30, 30, 18}}).empty());
  BOOST_CHECK_THROW(span_bows(places, {0.1, 0.2}, screws()), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
