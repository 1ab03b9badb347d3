// SPDX-License-Identifier: GPL-3.0-or-later
// Every case under cases/examples, from the file to the results, as a user starts it.
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/examples/example_case.h"
#include "tests/support/json_schema.h"

namespace crossgrain::testing {
namespace {

namespace data = boost::unit_test::data;
using nlohmann::json;

bool number_above_zero(const json& value) {
  return value.is_number() && std::isfinite(value.get<double>()) && value.get<double>() > 0.0;
}

/// A limit: a number above zero, or null where none was found.
bool limit(const json& value) { return value.is_null() || number_above_zero(value); }

/// A quantity that is absent from some cases: a finite number of any sign, or null.
bool number_or_null(const json& value) {
  return value.is_null() || (value.is_number() && std::isfinite(value.get<double>()));
}

bool is_place(const json& worst) {
  const json& at = worst.at("position_mm");
  return at.is_array() && at.size() == 3U && at[0].is_number() && at[1].is_number() &&
         at[2].is_number() && !worst.at("body").get<std::string>().empty() &&
         (worst.at("face").is_null() || worst.at("face").get<int>() >= 1);
}

/// A factor over modes: value, and where and how it is reached; every mode likewise.
void check_factor(const json& factor) {
  BOOST_TEST(limit(factor.at("value")));
  if (factor["value"].is_number() && factor.at("limited_by") == "") {
    BOOST_TEST(!factor.at("mode").get<std::string>().empty());
    BOOST_TEST(is_place(factor));
  }
  for (const auto& [name, mode] : factor.at("modes").items()) {
    BOOST_TEST_CONTEXT(name) {
      BOOST_TEST(limit(mode.at("value")));
      BOOST_TEST(is_place(mode));
    }
  }
}

/// The keys that issue-trackers and scripts of users hang on, by name.
void check_scripted_keys(const json& summary) {
  BOOST_TEST(number_above_zero(summary.at("displacement_max_mm")));
  BOOST_TEST(number_above_zero(summary.at("strain_energy_mJ")));
  BOOST_TEST(number_or_null(summary.at("allowable_pressure_MPa")));
  BOOST_TEST(number_or_null(summary.at("proof_pressure_MPa")));
  BOOST_TEST(number_above_zero(summary.at("cavity_volume_mm3")));
  for (const char* part : {"total", "fluid", "wall", "unbled_air"})
    BOOST_TEST(summary.at("stored_energy_J").at(part).get<double>() >= 0.0, part);
  BOOST_TEST(number_above_zero(summary["stored_energy_J"]["total"]));
  BOOST_TEST(summary.at("mesh").at("unknowns").get<int>() > 0);
  BOOST_TEST(summary["mesh"].at("layers_min").get<int>() >= 1);
  // Balance is met to round-off of a direct solve; 1e-6 is what the verdict itself asks for.
  BOOST_TEST(summary.at("balance").at("force_error").get<double>() >= 0.0);
  BOOST_TEST(summary["balance"]["force_error"].get<double>() < 1e-6);
  BOOST_TEST(limit(summary.at("pressure_factor").at("value")));
  BOOST_TEST(summary.at("load_cases").size() >= 2U);
  for (const json& load_case : summary["load_cases"]) {
    BOOST_TEST_CONTEXT(load_case.at("name")) {
      check_factor(load_case.at("safety_factor"));
      check_factor(load_case.at("pressure_factor"));
      BOOST_TEST(number_or_null(load_case.at("allowable_pressure_MPa")));
      BOOST_TEST(number_above_zero(load_case.at("displacement_max_mm")));
      BOOST_TEST(number_above_zero(load_case.at("strain_energy_mJ")));
    }
  }
}

int status_of(const std::string& verdict) {
  if (verdict == "pass") return 0;
  return verdict == "not_trusted" ? 4 : 1;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(examples)

BOOST_AUTO_TEST_CASE(there_are_the_five_that_the_documents_speak_of) {
  BOOST_TEST(
      example_names() == (std::vector<std::string>{"filter-bowl", "filter-housing",
                                                   "manifold-block", "pipe-tee", "vacuum-lid"}),
      boost::test_tools::per_element());
}

BOOST_DATA_TEST_CASE(runs_to_a_verdict, data::make(example_names()), name) {
  const ExampleCopy copy(name);

  const Ended run = copy.run(
      {"run", copy.case_name(), "--json", "-o", "answer", "--threads", "1", "--units", "bar"});

  const auto answer = copy.directory() / "answer";
  BOOST_TEST_REQUIRE(json::accept(run.out), run.err);
  const json summary = json::parse(run.out);
  BOOST_TEST(run.status == status_of(summary.at("verdict")));
  BOOST_TEST(summary["verdict"] != "not_trusted");
  BOOST_TEST(run.out == content_of(answer / "summary.json"));
  BOOST_TEST(fits_schema(answer / "summary.json", "summary.schema.json"));
  check_scripted_keys(summary);
  BOOST_TEST(holds(run.err, "results are in answer"));

  // Only the answer was added, and all that it speaks of is there.
  BOOST_TEST(copy.entries() == (std::vector<std::string>{"answer", name + ".step", name + ".toml"}),
             boost::test_tools::per_element());
  for (const json& load_case : summary["load_cases"]) {
    for (const char* key : {"fields_file", "faces_file"})
      BOOST_TEST(std::filesystem::file_size(answer / load_case[key].get<std::string>()) > 0U);
  }
  for (const char* file : {"fields.pvd", "faces.pvd"})
    BOOST_TEST(std::filesystem::file_size(answer / file) > 0U);

  const std::string text = content_of(answer / "summary.md");
  // A compressed gas kills even where the part passes: its warning alone may stand before the
  // verdict.
  const std::string title = "# " + summary["title"].get<std::string>() + "\n\n";
  const bool gas = text.find("GAS INSIDE") != std::string::npos;
  BOOST_TEST(text.rfind(title + (gas ? "> **GAS INSIDE" : "**"), 0) == 0U);
  BOOST_TEST(holds(text, " bar"));
  BOOST_TEST(!holds(text.substr(title.size()), " MPa"));
  BOOST_TEST(!holds_exponent(text));
  BOOST_TEST(text.find("0 g.") == std::string::npos);  // a body that is not modelled
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
