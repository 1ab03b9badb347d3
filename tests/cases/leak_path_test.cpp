// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/leak_path.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <random>
#include <stdexcept>

#include "tests/support/seal_face.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

/// A strip from x = -10 (wetted) to 10 (outer edge) under a contact of x and y.
std::vector<SealPoint> strip(std::function<double(double, double)> contact, int across = 21) {
  test::FaceRule rule;
  rule.contact = std::move(contact);
  rule.wetted = [](double x, double) { return x < -9.99; };
  rule.exit = [](double x, double) -> std::optional<SealExit> {
    if (x > 9.99) return SealExit::outer_edge;
    return std::nullopt;
  };
  return test::seal_face(10.0, across, rule);
}

/// Whether a fluid gets through where contact is at most `level`: plain flooding.
bool passes(const std::vector<SealPoint>& points, double level) {
  std::vector<bool> wet(points.size());
  bool spreads = true;
  while (spreads) {
    spreads = false;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (wet[i] || points[i].contact > level) continue;
      bool reached = points[i].wetted;
      for (const int next : points[i].neighbours) reached = reached || wet[next];
      if (!reached) continue;
      if (points[i].exit) return true;
      wet[i] = spreads = true;
    }
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(leak_path)

BOOST_AUTO_TEST_CASE(the_level_is_the_least_at_which_a_flood_gets_out) {
  std::mt19937 random(7);
  for (int trial = 0; trial < 20; ++trial) {
    auto points = strip([](double, double) { return 0.0; }, 12);
    for (SealPoint& point : points) point.contact = static_cast<double>(random() % 1000) / 100.0;

    const LeakPath path = leak_paths(points, 0.0).front();

    BOOST_TEST(passes(points, path.level + 1e-9));
    BOOST_TEST(!passes(points, path.level - 1e-9));
  }
}

BOOST_AUTO_TEST_CASE(the_path_leads_from_wet_to_dry_over_its_tightest_place) {
  // A dam at x = 2 with a gap of half its contact at y = -4.
  const auto points = strip([](double x, double y) {
    if (std::abs(x - 2.0) > 0.5) return 0.2;
    return std::abs(y + 4.0) < 0.5 ? 1.0 : 2.0;
  });

  const LeakPath path = leak_paths(points, 0.0).front();

  BOOST_TEST(path.level == 1.0, tolerance(1e-12));
  BOOST_TEST(points[path.points.front()].wetted);
  BOOST_TEST((points[path.points.back()].exit == SealExit::outer_edge));
  BOOST_TEST((points[path.tightest].position - Eigen::Vector3d(2.0, -4.0, 0.0)).norm() < 1e-9);
  for (std::size_t i = 1; i < path.points.size(); ++i) {
    const auto& neighbours = points[path.points[i - 1]].neighbours;
    BOOST_TEST(
        (std::find(neighbours.begin(), neighbours.end(), path.points[i]) != neighbours.end()));
  }
}

BOOST_AUTO_TEST_CASE(a_tight_line_thinner_than_the_width_counts_in_part) {
  // One row of 3 MPa among rows of nothing: of the 13 places within 2 mm of one on it 5 are tight.
  const auto points = strip([](double x, double) { return std::abs(x) < 0.5 ? 3.0 : 0.0; });

  BOOST_TEST(leak_paths(points, 0.0).front().level == 3.0, tolerance(1e-12));
  BOOST_TEST(leak_paths(points, 4.0).front().level < 3.0 * 5.0 / 13.0 + 1e-9);
  BOOST_TEST(leak_paths(points, 4.0).front().level > 0.5);
}

BOOST_AUTO_TEST_CASE(the_average_of_an_even_contact_is_that_contact) {
  for (const double contact : averaged_contact(strip([](double, double) { return 0.7; }), 5.0)) {
    BOOST_TEST(contact == 0.7, tolerance(1e-12));
  }
}

BOOST_AUTO_TEST_CASE(the_average_does_not_reach_across_a_slit) {
  test::FaceRule rule;
  rule.there = [](double x, double) { return std::abs(x) > 0.5; };
  rule.contact = [](double x, double) { return x < 0.0 ? 1.0 : 9.0; };
  rule.wetted = [](double, double) { return false; };
  rule.exit = [](double, double) { return std::optional<SealExit>(); };
  const auto points = test::seal_face(5.0, 11, rule);

  for (const double contact : averaged_contact(points, 6.0)) {
    BOOST_TEST((std::abs(contact - 1.0) < 1e-12 || std::abs(contact - 9.0) < 1e-12));
  }
}

BOOST_AUTO_TEST_CASE(an_open_way_leaks_at_nothing) {
  const auto points = strip([](double, double y) { return std::abs(y - 3.0) < 0.5 ? 0.0 : 5.0; });

  BOOST_TEST(leak_paths(points, 0.0).front().level == 0.0);
}

BOOST_AUTO_TEST_CASE(a_face_that_makes_no_sense_is_refused) {
  const auto good = strip([](double, double) { return 1.0; });

  auto dry = good;
  for (SealPoint& point : dry) point.wetted = false;
  BOOST_CHECK_THROW(leak_paths(dry, 0.0), std::invalid_argument);

  auto closed = good;
  for (SealPoint& point : closed) point.exit.reset();
  BOOST_CHECK_THROW(leak_paths(closed, 0.0), std::invalid_argument);

  auto apart = good;
  for (SealPoint& point : apart) point.neighbours.clear();
  BOOST_CHECK_THROW(leak_paths(apart, 0.0), std::invalid_argument);

  auto no_number = good;
  no_number[5].contact = std::numeric_limits<double>::quiet_NaN();
  BOOST_CHECK_THROW(leak_paths(no_number, 0.0), std::invalid_argument);

  auto stray = good;
  stray[5].neighbours.push_back(99999);
  BOOST_CHECK_THROW(leak_paths(stray, 0.0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
