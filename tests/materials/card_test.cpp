// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/card_file/card.h"

#include <boost/test/unit_test.hpp>
#include <cstdlib>

#include "materials/card_file/card_keys.h"
#include "tests/support/refusal.h"
#include "tests/support/temporary_file.h"

using namespace crossgrain;
using crossgrain::testing::refused;
using crossgrain::testing::TemporaryDirectory;
namespace tt = boost::test_tools;

namespace {

/// What a data sheet of printed bars gives, and no more.
const std::string sheet = R"(title = "Somebody's filament"
kind = "layered"
nature = "amorphous"
bars = "printed"
standing = "data_sheet"
source = "sheet of 2024"
[dry]
E_layer = "2000 MPa"
Xt = "45 MPa"
)";

std::string with(const std::string& old_text, const std::string& new_text) {
  std::string changed = sheet;
  const auto at = changed.find(old_text);
  BOOST_REQUIRE(at != std::string::npos);
  return changed.replace(at, old_text.size(), new_text);
}

MaterialCard read_text(const std::string& text) {
  const TemporaryDirectory directory;
  return read_card(directory.file("mine.toml", text));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(card)

BOOST_AUTO_TEST_CASE(a_data_sheet_with_two_numbers_is_a_card) {
  const MaterialCard card = read_text(sheet);

  BOOST_TEST(card.name == "mine");
  BOOST_TEST(card.title == "Somebody's filament");
  BOOST_TEST(card.dry.size() == 2u);
  BOOST_TEST(card.dry.at("E_layer").value == 2000.0);
  BOOST_TEST(card.dry.at("Xt").source == "sheet of 2024");
  BOOST_TEST((card.dry.at("Xt").standing == Standing::data_sheet));
  BOOST_TEST(card.dry.at("Xt").low == 45.0);  // a data sheet's number is taken as it is
}

BOOST_AUTO_TEST_CASE(each_number_may_have_its_own_source_and_range) {
  const MaterialCard card = read_text(sheet +
                                      "Zt = { value = \"4 ksi\", low = \"20 MPa\", standing = "
                                      "\"memory\", source = \"a guess\" }\n");

  const CardValue& Zt = card.dry.at("Zt");
  BOOST_TEST(Zt.value == 27.57903, tt::tolerance(1e-6));
  BOOST_TEST(Zt.low == 20.0);
  BOOST_TEST(Zt.high == 1.2 * Zt.value, tt::tolerance(1e-12));  // from memory: 20 %
  BOOST_TEST(Zt.source == "a guess");
}

BOOST_AUTO_TEST_CASE(nu_31_is_turned_into_nu_13) {
  const MaterialCard card = read_text(sheet + "E_build = \"1600 MPa\"\nnu_31 = 0.28\n");

  BOOST_TEST(card.dry.at("nu_13").value == 0.35, tt::tolerance(1e-14));  // 0.28 x 2000 / 1600
  BOOST_TEST(card.dry.at("nu_13").source.find("given as nu_31") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(every_card_of_the_program_reads_and_names_its_sources) {
  const std::vector<std::string> names = known_cards();

  for (const char* expected :
       {"abs", "aluminium", "asa", "pa", "pa_cf", "pc", "petg", "pla", "pp", "steel", "tpu"})
    BOOST_TEST((std::find(names.begin(), names.end(), expected) != names.end()), expected);
  for (const std::string& name : names) {
    BOOST_TEST_CONTEXT(name) {
      const MaterialCard card = find_card(name, ".");
      const bool layered = card.kind == MaterialKind::layered;
      BOOST_TEST(card.glass_transition_K.has_value() == layered);
      BOOST_TEST(card.dry.contains("density"));
      BOOST_TEST(card.dry.contains(layered ? "cte_layer" : "cte"));
      for (const auto* values : {&card.dry, &card.conditioned})
        for (const auto& [key, value] : *values) BOOST_TEST(!value.source.empty(), key);
    }
  }
  BOOST_TEST(!find_card("pa", ".").conditioned.empty());
  BOOST_TEST(!find_card("pa_cf", ".").conditioned.empty());
}

BOOST_AUTO_TEST_CASE(a_bad_card_is_refused_with_the_line_and_the_remedy) {
  struct Refusal {
    std::string text;
    const char* message;
  };
  const Refusal refusals[] = {
      {"kind = [", "mine.toml:1: not valid TOML"},
      {with("[dry]", "[dry]\nE_layr = \"3 MPa\""),
       "mine.toml:8: unknown key \"E_layr\" (did you mean \"E_layer\"?)"},
      {with("title", "titel"), "mine.toml:1: unknown key \"titel\" (did you mean \"title\"?)"},
      {with("\"2000 MPa\"", "2000"),
       "mine.toml:8: E_layer must be a quantity in quotes, in one "
       "of: MPa"},
      {with("2000 MPa", "2000"), "mine.toml:8: E_layer = \"2000\": the unit is missing"},
      {with("2000 MPa", "2000 mm"), "\"mm\" is a unit of length"},
      {with("2000 MPa", "-2000 MPa"), "E_layer must be positive"},
      {with("2000 MPa", "nan MPa"), "not finite"},
      {sheet + "nu_12 = nan\n", "nu_12 is not finite"},
      {sheet + "nu_12 = 1.5\n", "nu_12 must lie between -1 and 1"},
      {sheet + "nu = 0.35\n",
       "mine.toml:10: \"nu\" is ambiguous for layered material: write nu_12"},
      {sheet + "E = \"2 GPa\"\n", "write E_layer (XY) and E_build (Z)"},
      {sheet + "strength = \"20 MPa\"\n", "write Xt (XY) and Zt (Z)"},
      {sheet + "nu_31 = 0.3\n", "nu_31 can be turned into nu_13"},
      {sheet + "E_build = \"1 GPa\"\nnu_31 = 0.3\nnu_13 = 0.3\n", "give nu_13 or nu_31, not both"},
      {with("E_layer = \"2000 MPa\"\n", ""), "[dry] lacks E_layer, the modulus in the layer (XY)"},
      {with("Xt = \"45 MPa\"\n", ""), "[dry] lacks Xt"},
      {with("kind = \"layered\"\n", ""), "mine.toml: kind is missing"},
      {with("\"layered\"", "\"wood\""), "kind = \"wood\" is none of \"layered\""},
      {with("nature = \"amorphous\"\n", ""), "nature is missing"},
      {with("bars = \"printed\"\n", ""),
       "bars is missing, write for instance bars = \"printed\": "
       "sheets quote printed or moulded bars"},
      {with("\"printed\"", "\"moulded\"") + "Zt = \"20 MPa\"\n",
       "Zt cannot come from a moulded bar, which has no layers"},
      {with("standing = \"data_sheet\"\n", ""), "E_layer does not say how well it is known"},
      {with("source = \"sheet of 2024\"\n", ""), "E_layer has no source"},
      {with("\"data_sheet\"", "\"hearsay\""), "standing = \"hearsay\" is none of \"measured\""},
      {sheet + "Zt = { value = \"20 MPa\", low = \"25 MPa\" }\n", "Zt low is above its value"},
      {sheet + "Zt = { value = \"20 MPa\", high = \"15 MPa\" }\n", "Zt high is below its value"},
      {sheet + "Zt = { low = \"15 MPa\" }\n", "Zt has no \"value\""},
      {sheet + "Zt = { value = \"20 MPa\", hihg = \"25 MPa\" }\n", "did you mean \"high\"?"},
      {sheet + "[[temperature]]\nat = \"60 degC\"\nstrength_kept = 0.5\n", "lacks modulus_kept"},
      {sheet + "[[temperature]]\nat = \"60 degC\"\nstrength_kept = 0.5\nmodulus_kept = 0\n",
       "must be positive"},
      {sheet + "[[temperature]]\nat = \"23 degC\"\nstrength_kept = 0.9\nmodulus_kept = 1\n",
       "fractions of the 23 degC values"},
      {sheet + "[[temperature]]\nat = \"60 degC\"\nstrength_kept = 0.5\nmodulus_kept = 0.5\n"
               "[[temperature]]\nat = \"50 degC\"\nstrength_kept = 0.6\nmodulus_kept = 0.6\n",
       "mine.toml:14: temperature points must rise"},
      {with("\"layered\"", "\"isotropic_ductile\""), "\"E_layer\" belongs to layered material"},
  };

  for (const Refusal& refusal : refusals) {
    BOOST_TEST_CONTEXT(refusal.message)
    BOOST_TEST(refused([&] { read_text(refusal.text); }, refusal.message));
  }
}

BOOST_AUTO_TEST_CASE(a_card_is_found_by_name_or_by_path_beside_the_case) {
  const TemporaryDirectory directory;
  directory.file("mine.toml", sheet);

  BOOST_TEST(find_card("petg", directory.path()).name == "petg");
  BOOST_TEST(find_card("mine.toml", directory.path()).title == "Somebody's filament");
  BOOST_TEST(refused([&] { find_card("pet", directory.path()); },
                     "unknown material card \"pet\" (did you mean \"petg\"?); known are abs"));
  BOOST_TEST(refused([&] { find_card("mine", directory.path()); }, "named by its path"));
  BOOST_TEST(refused([&] { find_card("other.toml", directory.path()); }, "no such material card"));
}

BOOST_AUTO_TEST_CASE(an_environment_variable_moves_the_cards) {
  const TemporaryDirectory directory;
  directory.file("mine.toml", sheet);

  setenv("CROSSGRAIN_CARDS", directory.path().c_str(), 1);
  const std::vector<std::string> moved = known_cards();
  setenv("CROSSGRAIN_CARDS", (directory.path() / "nowhere").c_str(), 1);
  const auto missing = refused([] { known_cards(); }, "nowhere\" is not a directory");
  unsetenv("CROSSGRAIN_CARDS");

  BOOST_TEST(moved == std::vector<std::string>{"mine"}, tt::per_element());
  BOOST_TEST(missing);
}

BOOST_AUTO_TEST_SUITE_END()
