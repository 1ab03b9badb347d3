// SPDX-License-Identifier: GPL-3.0-or-later
// The installed program brings its material cards along and finds them from anywhere.
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "tests/examples/example_case.h"

namespace crossgrain::testing {

BOOST_AUTO_TEST_SUITE(install)

BOOST_AUTO_TEST_CASE(the_installed_program_finds_its_cards_from_anywhere) {
  const TemporaryDirectory prefix, elsewhere;
  const Ended installed = crossgrain({"--install", CROSSGRAIN_BUILD_DIR, "--prefix", prefix.path()},
                                     {.directory = elsewhere.path(), .program = CROSSGRAIN_CMAKE});
  BOOST_TEST_REQUIRE(installed.status == 0, installed.err);
  // A card that only this installation has tells its cards from those of the source.
  const auto cards = prefix.path() / "share" / "crossgrain" / "cards";
  std::filesystem::copy_file(cards / "asa.toml", cards / "asa_of_this_place.toml");

  const Ended listed =
      crossgrain({"material", "--json"},
                 {.directory = elsewhere.path(), .program = prefix.path() / "bin" / "crossgrain"});

  BOOST_TEST(listed.status == 0);
  BOOST_TEST_REQUIRE(nlohmann::json::accept(listed.out), listed.err);
  std::vector<std::string> names;
  for (const auto& card : nlohmann::json::parse(listed.out)) names.push_back(card["name"]);
  for (const char* name : {"petg", "steel", "asa_of_this_place"})
    BOOST_TEST((std::find(names.begin(), names.end(), name) != names.end()), name);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
