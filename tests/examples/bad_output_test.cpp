// SPDX-License-Identifier: GPL-3.0-or-later
// Results that cannot be written: status 2, the place and the remedy, and nothing half-written.
#include <boost/test/unit_test.hpp>

#include "tests/examples/example_case.h"

namespace crossgrain::testing {
namespace {

struct Tee : ExampleCopy {
  Tee() : ExampleCopy("pipe-tee") {}
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(bad_output, Tee)

BOOST_AUTO_TEST_CASE(a_place_that_cannot_be_written_to_is_refused_before_the_work) {
  std::ofstream(directory() / "taken") << "in the way";
  // The mesher would refuse this part: that the place is named shows that it was looked at first.
  std::ofstream(directory() / "pipe-tee.step") << "no STEP file";
  const auto before = entries();
  for (const char* command : {"run", "directions"}) {
    for (const auto& [place, reason] :
         {std::pair{"taken", "a file of that name is in the way"},
          std::pair{"taken/answer", "Not a directory"},
          std::pair{"/proc/answer", "cannot write into /proc/answer: "}}) {
      const Ended ended = run({command, case_name(), "-o", place});
      BOOST_TEST(ended.status == 2);
      BOOST_TEST(holds(ended.err, std::string("cannot write into ") + place));
      BOOST_TEST(holds(ended.err, reason));
      BOOST_TEST(holds(ended.err, "choose another directory with -o"));
      BOOST_TEST(entries() == before, boost::test_tools::per_element());
    }
  }
  BOOST_TEST(content_of(directory() / "taken") == "in the way");
}

BOOST_AUTO_TEST_CASE(a_disk_that_fills_up_leaves_nothing) {
  BOOST_TEST(run({"run", case_name(), "-o", "sound"}).status < 2);
  const auto fields = std::filesystem::file_size(directory() / "sound" / "fields.vtu");
  std::filesystem::remove_all(directory() / "sound");
  const auto before = entries();

  const Ended ended = crossgrain({"run", case_name(), "-o", "answer"},
                                 {.directory = directory(), .largest_file = fields - 1});

  BOOST_TEST(ended.status == 2);
  BOOST_TEST(ended.out == "");
  BOOST_TEST(holds(ended.err, "cannot write answer/fields"));
  BOOST_TEST(holds(ended.err, "make room or choose another directory with -o"));
  BOOST_TEST(entries() == before, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(an_answer_that_cannot_be_printed_is_not_silently_lost) {
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"material"}, {"inspect", "pipe-tee.step", "--json"}}) {
    const Ended ended = crossgrain(words, {.directory = directory(), .out = "/dev/full"});
    BOOST_TEST(ended.status == 2);
    BOOST_TEST(holds(ended.err, "standard output could not be written"));
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
