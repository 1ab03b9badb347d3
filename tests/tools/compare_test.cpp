// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/support/refusal.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/compare_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/read_summary.h"
#include "tools/results/summary_json.h"
#include "tools/results/write_results.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace fs = std::filesystem;

namespace {

fs::path written_file(const std::string& name, const std::string& content) {
  const fs::path file = empty_directory("compare_" + name) / "summary.json";
  std::ofstream(file) << content;
  return file;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_written_summary_reads_back_as_it_was) {
  const SyntheticRun run;
  const fs::path directory = empty_directory("read_back");
  write_results(run.outputs(), {}, directory);

  const RunSummary summary = read_run_summary(directory);

  BOOST_TEST(summary.title == "Bar under pressure");
  BOOST_TEST(summary.verdict == "marginal");
  BOOST_TEST(
      (summary.factor.value == 3.4 && summary.factor.low == 2.6 && summary.factor.high == 4.4));
  BOOST_TEST((summary.pressure_factor.value == 5.0));
  BOOST_TEST(summary.governing_mode == "interlayer");
  BOOST_TEST(summary.governing_body == "bowl");
  BOOST_TEST((summary.allowable_pressure_MPa == 0.45));
  BOOST_TEST((summary.mass_g == 1.27 + 2.7));
  BOOST_TEST_REQUIRE(summary.case_factors.size() == 2U);
  BOOST_TEST(summary.case_factors[1].first == "working (screws take none of the pressure)");
  BOOST_TEST((summary.case_factors[1].second.value == 3.4));
  BOOST_TEST((summary.settings == case_settings(run.case_file)));
}

BOOST_AUTO_TEST_CASE(the_comparison_shows_what_differs_in_the_unit_asked_for) {
  SyntheticRun other;
  other.case_file.bodies[0].material = "abs";
  other.result.allowable_pressure_MPa = 0.9;
  const fs::path first = written_file("first", summary_json(SyntheticRun().outputs()));
  const fs::path second = written_file("second", summary_json(other.outputs()));

  const Comparison comparison = compare_runs(read_run_summary(first), read_run_summary(second));
  const std::string text = comparison_text(comparison, parse_reading_units("bar"));

  BOOST_TEST(text.find("| body: material | petg  | abs    |") != std::string::npos);
  BOOST_TEST(text.find("| 4.5 bar") != std::string::npos);
  BOOST_TEST(text.find("| 9 bar") != std::string::npos);
  BOOST_TEST(text.find("+100 %") != std::string::npos);
  BOOST_TEST(nlohmann::json::parse(comparison_json(comparison))["settings"].size() == 1U);
}

BOOST_AUTO_TEST_CASE(hostile_names_stay_inert_in_a_comparison) {
  const fs::path file = written_file("hostile", summary_json(hostile_run().outputs()));

  const std::string text =
      comparison_text(compare_runs(read_run_summary(file), read_run_summary(file)), {});

  BOOST_TEST(text.find("<script") == std::string::npos);
  BOOST_TEST(text.find("alert") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(what_is_no_summary_is_refused_with_the_reason) {
  const std::string good = summary_json(SyntheticRun().outputs());
  const auto changed = [&](const char* key, const nlohmann::json& value) {
    auto document = nlohmann::json::parse(good);
    document[key] = value;
    return written_file("changed", document.dump());
  };
  const auto without_verdict = [&] {
    auto document = nlohmann::json::parse(good);
    document.erase("verdict");
    return written_file("changed", document.dump());
  };

  BOOST_TEST(refused([] { read_run_summary("no_such_run"); }, "no_such_run cannot be read"));
  BOOST_TEST(refused([] { read_run_summary(empty_directory("compare_none")); },
                     "summary.json cannot be read"));
  BOOST_TEST(refused([&] { read_run_summary(written_file("cut", good.substr(0, 500))); },
                     "it is not JSON at byte"));
  BOOST_TEST(refused([&] { read_run_summary(written_file("list", "[1, 2]")); },
                     "is not a summary of a run"));
  BOOST_TEST(
      refused([&] { read_run_summary(changed("schema_version", 99)); }, "has schema version 99"));
  BOOST_TEST(refused([&] { read_run_summary(changed("bodies", 3)); }, "is not a summary of a run"));
  BOOST_TEST(refused([&] { read_run_summary(changed("title", 3)); }, "is not a summary of a run"));
  BOOST_TEST(refused([&] { read_run_summary(without_verdict()); }, "key 'verdict' not found"));
}
