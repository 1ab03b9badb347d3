// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_places.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

using namespace crossgrain;

namespace {

/// 11 x 11 places a millimetre apart, the first at the origin.
std::vector<Eigen::Vector3d> square() {
  std::vector<Eigen::Vector3d> positions;
  for (int j = 0; j <= 10; ++j) {
    for (int i = 0; i <= 10; ++i) positions.emplace_back(i, j, 7.0);
  }
  return positions;
}

SealEdge along_y(double x, std::optional<SealExit> exit) {
  SealEdge edge{{}, exit};
  for (int j = 0; j <= 10; ++j) edge.line.emplace_back(x, j, 7.0);
  return edge;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(seal_places)

BOOST_AUTO_TEST_CASE(neighbours_are_all_within_reach_and_name_each_other) {
  const auto positions = square();

  const auto places = crossgrain::seal_places(positions, std::vector<double>(121, 1.0), {}, 1.5);

  BOOST_TEST(places[0].neighbours.size() == 3u);
  BOOST_TEST(places[60].neighbours.size() == 8u);
  for (std::size_t i = 0; i < places.size(); ++i) {
    std::size_t near = 0;
    for (std::size_t j = 0; j < places.size(); ++j) {
      if (j != i && (positions[i] - positions[j]).norm() <= 1.5) ++near;
    }
    BOOST_TEST(places[i].neighbours.size() == near);
  }
}

BOOST_AUTO_TEST_CASE(places_beside_an_edge_lie_on_it) {
  const auto places = crossgrain::seal_places(
      square(), std::vector<double>(121, 1.0),
      {along_y(-0.5, std::nullopt), along_y(10.2, SealExit::screw_hole)}, 0.9);
  for (const SealPoint& place : places) {
    BOOST_TEST(place.wetted == (place.position[0] < 0.5));
    BOOST_TEST(place.exit.has_value() == (place.position[0] > 9.5));
  }
}

BOOST_AUTO_TEST_CASE(an_edge_far_from_all_places_is_refused) {
  BOOST_CHECK_EXCEPTION(crossgrain::seal_places(square(), std::vector<double>(121, 1.0),
                                                {along_y(30.0, SealExit::other_port)}, 1.5),
                        std::invalid_argument, [](const auto& problem) {
                          return std::string(problem.what()).find("another port") !=
                                 std::string::npos;
                        });
  BOOST_CHECK_THROW(crossgrain::seal_places(square(), {1.0}, {}, 1.5), std::invalid_argument);
  BOOST_CHECK_THROW(crossgrain::seal_places(square(), std::vector<double>(121, 1.0), {},
                                            std::numeric_limits<double>::quiet_NaN()),
                    std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
