// SPDX-License-Identifier: GPL-3.0-or-later
// What is said of a fluid that came between faces which only press.
#include "cases/judgement/meeting_faces.h"

#include <boost/test/unit_test.hpp>

using namespace crossgrain;

namespace {

constexpr double pressure = 0.4;

/// A contact of two triangles of 10 and 30 mm^2, the larger one wet to a share.
CaseResult case_with(const std::string& name, const std::string& bound, double wet) {
  CaseResult result{};
  result.name = name;
  result.bound = bound;
  const auto triangle = [](int side, double area, double fluid) {
    return MeetingTriangle{0, side, area, 0.1, 0.0, fluid, MeetingState::pressed};
  };
  result.meetings = {{"flange",
                      {triangle(1, 10.0, wet > 0.0 ? pressure : 0.0),
                       triangle(1, 30.0, wet * pressure), triangle(2, 40.0, wet * pressure)}}};
  return result;
}

ContactSpec contact() {
  ContactSpec spec;
  spec.name = "flange";
  return spec;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(flooded_contacts_in_words)

BOOST_AUTO_TEST_CASE(the_load_case_that_wets_most_is_named_with_its_share) {
  const auto warnings = flooded_contacts(
      {contact()}, {case_with("assembly", "", 0.0), case_with("working", "least preload", 0.5),
                    case_with("working", "greatest preload", 0.1)});

  BOOST_REQUIRE(warnings.size() == 1u);
  // (10 + 0.5 x 30) / 40
  BOOST_TEST(warnings[0].find("contact 'flange' on 62.5 % of 40 mm^2") != std::string::npos);
  BOOST_TEST(warnings[0].find("least preload") != std::string::npos);
  BOOST_TEST(warnings[0].find("Only a gasket's seal is judged") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_dry_contact_is_not_spoken_of) {
  BOOST_TEST(flooded_contacts({contact()}, {case_with("working", "", 0.0)}).empty());
  BOOST_TEST(flooded_contacts({}, {case_with("working", "", 0.5)}).empty());
}

BOOST_AUTO_TEST_SUITE_END()
