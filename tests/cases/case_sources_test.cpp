// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_sources.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/cases/case_text.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;
using Eigen::Vector3d;

namespace {

constexpr double exact = 1e-14;  // a few roundings

const std::string load = R"([[pressure]]
name = "working"
value = "0.4 MPa"
faces = { ids = [1] }
)";

/// Two solids of one file, one of them again in another place.
const std::string three_bodies = R"([[body]]
step_file = "part.step"
name = "cup"
material = "petg"
print_direction = "+z"
[[body]]
step_file = "part.step"
name = "peg"
material = "pla"
print_direction = "+x"
[[body]]
step_file = "part.step"
name = "peg"
material = "petg"
print_direction = "+y"
turn = { axis = [0, 0, 2], angle = "90 deg", about = ["1 cm", "0 mm", "0 mm"] }
shift = ["0 mm", "2 in", "0 mm"]
)" + load;

Body body(std::size_t file, const std::string& name) {
  Body result{};
  result.file = file;
  result.name_in_file = name;
  result.name = "told apart/" + name;
  return result;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(case_sources)

BOOST_AUTO_TEST_CASE(one_file_in_two_places_is_read_twice) {
  const std::vector<StepSource> files = import_options(case_from(three_bodies)).files;

  BOOST_REQUIRE(files.size() == 2u);
  BOOST_TEST(files[0].bodies == (std::vector<std::string>{"cup", "peg"}));
  BOOST_TEST(files[1].bodies == (std::vector<std::string>{"peg"}));
  BOOST_TEST(files[0].placement.angle == 0.0);
  BOOST_TEST(files[0].placement.shift.norm() == 0.0);
  BOOST_TEST(files[1].placement.angle == M_PI / 2.0, tolerance(exact));
  BOOST_TEST(near(files[1].placement.axis.normalized(), Vector3d(0, 0, 1), exact));
  BOOST_TEST(near(files[1].placement.about, Vector3d(10, 0, 0), exact));
  BOOST_TEST(near(files[1].placement.shift, Vector3d(0, 50.8, 0), exact));
}

BOOST_AUTO_TEST_CASE(whatever_differs_in_a_place_makes_it_another) {
  const std::string as_drawn = "turn = { axis = \"+z\", angle = \"90 deg\" }\n";
  for (const std::string elsewhere :
       {"turn = { axis = \"+x\", angle = \"90 deg\" }\n",
        "turn = { axis = \"+z\", angle = \"80 deg\" }\n",
        "turn = { axis = \"+z\", angle = \"90 deg\", about = [\"1 mm\", \"0 mm\", \"0 mm\"] }\n",
        "turn = { axis = \"+z\", angle = \"90 deg\" }\nshift = [\"0 mm\", \"0 mm\", \"5 mm\"]\n",
        "turn = { axis = \"+z\", angle = \"90 deg\" }\nscale = 2\n"}) {
    const std::string two = one_body + as_drawn + one_body + elsewhere;

    BOOST_TEST(import_options(case_from(two + load)).files.size() == 2u);
  }
}

BOOST_AUTO_TEST_CASE(an_entry_without_a_name_takes_the_whole_file) {
  const std::vector<StepSource> files = import_options(case_from(small_case)).files;

  BOOST_REQUIRE(files.size() == 1u);
  BOOST_TEST(files[0].bodies.empty());
}

BOOST_AUTO_TEST_CASE(bodies_get_the_entry_of_their_file_and_name) {
  const CaseFile case_file = case_from(three_bodies);
  Geometry geometry;
  geometry.bodies = {body(0, "cup"), body(0, "peg"), body(1, "cup"), body(1, "peg")};

  const std::vector<const BodySpec*> specs = spec_of_body(case_file, geometry);

  BOOST_TEST(specs[0] == &case_file.bodies[0]);
  BOOST_TEST(specs[1] == &case_file.bodies[1]);
  BOOST_TEST(specs[2] == &case_file.bodies[2]);  // left out there: the first of its file
  BOOST_TEST(specs[3] == &case_file.bodies[2]);
}

BOOST_AUTO_TEST_SUITE_END()
