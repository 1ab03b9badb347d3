// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_json.h"

#include <boost/test/unit_test.hpp>
#include <functional>
#include <limits>
#include <nlohmann/json.hpp>

#include "tests/support/json_schema.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/write_results.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace fs = std::filesystem;
using nlohmann::json;

namespace {

bool valid(const json& document) { return fits_schema(document, "summary.schema.json"); }

json summary_of(const SyntheticRun& run) { return json::parse(summary_json(run.outputs())); }

}  // namespace

BOOST_AUTO_TEST_CASE(a_written_summary_fits_the_schema) {
  const SyntheticRun run;
  const fs::path directory = empty_directory("summary");

  write_results(run.outputs(), {}, directory);

  BOOST_TEST(fits_schema(directory / "summary.json", "summary.schema.json"));
}

BOOST_AUTO_TEST_CASE(the_summary_of_a_run_without_pressure_or_limits_fits_the_schema) {
  SyntheticRun run;
  run.result.factor = run.result.pressure_factor = {};
  run.result.governing.reset();
  run.result.working_pressure_MPa = run.result.allowable_pressure_MPa =
      run.result.proof_pressure_MPa = std::nullopt;
  run.result.cavity_volume_mm3.reset();
  run.result.hand_calculation.reset();
  run.result.joint.reset();
  run.result.cases[0].all_loads = run.result.cases[0].scaling_loads = {};
  run.result.cases[0].allowable_pressure_MPa.reset();

  BOOST_TEST(valid(summary_of(run)));
}

BOOST_AUTO_TEST_CASE(the_schema_refuses_what_is_missing_added_or_of_another_kind) {
  const json good = summary_of(SyntheticRun());
  const auto refused = [&](const std::function<void(json&)>& spoil) {
    json bad = good;
    spoil(bad);
    return !valid(bad);
  };

  BOOST_TEST(valid(good));
  BOOST_TEST(refused([](json& j) { j.erase("proof_pressure_MPa"); }));
  BOOST_TEST(refused([](json& j) { j["load_cases"][0].erase("pressure_factor"); }));
  BOOST_TEST(refused([](json& j) { j["mesh"]["layers_minimum"] = 2; }));
  BOOST_TEST(refused([](json& j) { j["verdict"] = "ok"; }));
  BOOST_TEST(refused([](json& j) { j["allowable_pressure_MPa"] = "0.4"; }));
  BOOST_TEST(refused([](json& j) { j["safety_factor"]["value"] = -1.0; }));
  BOOST_TEST(refused([](json& j) { j["governing"]["position_mm"] = {1.0, 2.0}; }));
  BOOST_TEST(refused([](json& j) { j.erase("joint"); }));
  BOOST_TEST(refused([](json& j) { j["joint"]["lines"][0].erase("limit_standing"); }));
  BOOST_TEST(refused([](json& j) { j["joint"]["torque_window"]["lowest"]["mode"] = "snug"; }));
  BOOST_TEST(refused(
      [](json& j) { j["load_cases"][1]["safety_factor"]["modes"]["delamination"] = nullptr; }));
}

BOOST_AUTO_TEST_CASE(keys_that_scripts_rely_on_hold_the_numbers_of_the_run) {
  const SyntheticRun run;
  const json j = summary_of(run);
  const json& working = j["load_cases"][1];
  const json& interlayer = working["safety_factor"]["modes"]["interlayer"];

  BOOST_TEST(j["verdict"] == "marginal");
  BOOST_TEST(j["displacement_max_mm"] == 0.25);
  BOOST_TEST(j["strain_energy_mJ"] == 12.5);
  BOOST_TEST(j["allowable_pressure_MPa"] == 0.45);
  BOOST_TEST(j["proof_pressure_MPa"] == 0.6);
  BOOST_TEST(j["cavity_volume_mm3"] == 5e5);
  BOOST_TEST(j["stored_energy_J"]["total"].get<double>() == 1.52,
             boost::test_tools::tolerance(1e-12));
  BOOST_TEST(j["mesh"]["unknowns"] == run.meshed.mesh.unknowns());
  BOOST_TEST(j["mesh"]["layers_min"] == 2);
  BOOST_TEST(j["balance"]["force_error"] == 1e-12);
  BOOST_TEST(j["safety_factor"]["low"] == 2.6);
  BOOST_TEST(j["pressure_factor"]["value"] == 5.0);
  BOOST_TEST(j["governing"]["mode"] == "interlayer");
  BOOST_TEST(j["governing"]["load_case"] == "working (screws take none of the pressure)");
  BOOST_TEST(working["safety_factor"]["value"] == 3.4);
  BOOST_TEST(working["safety_factor"]["mode"] == "interlayer");
  BOOST_TEST(working["safety_factor"]["position_mm"] == json({0.0, 5.0, 10.0}));
  BOOST_TEST(working["safety_factor"]["body"] == "bowl");
  BOOST_TEST(working["safety_factor"]["face"] == 1);
  BOOST_TEST(working["pressure_factor"]["value"] == 5.0);
  BOOST_TEST(working["allowable_pressure_MPa"] == 0.45);
  BOOST_TEST(interlayer["low"] == 2.6);
  BOOST_TEST(interlayer["stress_material_axes_MPa"]["33"] == 3.0);
  BOOST_TEST(interlayer["stress_material_axes_MPa"]["12"] == 0.125);
  BOOST_TEST(working["safety_factor"]["modes"]["tsai_wu"]["value"].is_null());
}

BOOST_AUTO_TEST_CASE(stresses_of_probes_are_named_by_global_axes) {
  SyntheticRun run;
  run.result.probes[0].stress[0] << 1.0, 2.0, 3.0, 4.0, 5.0, 6.0;  // 11 22 33 23 13 12

  const json stress = summary_of(run)["probes"][0]["samples"][0]["stress_MPa"];

  BOOST_TEST(stress ==
             json({{"xx", 1.0}, {"yy", 2.0}, {"zz", 3.0}, {"yz", 4.0}, {"xz", 5.0}, {"xy", 6.0}}));
}

BOOST_AUTO_TEST_CASE(an_infinite_factor_is_null_and_a_missing_number_is_refused_by_name) {
  SyntheticRun run;
  run.result.factor.high = std::numeric_limits<double>::infinity();
  BOOST_TEST(summary_of(run)["safety_factor"]["high"].is_null());

  run.result.balance.force_error = std::numeric_limits<double>::quiet_NaN();
  BOOST_CHECK_EXCEPTION(summary_json(run.outputs()), std::runtime_error, [](const auto& error) {
    return std::string(error.what()).find("balance.force_error") != std::string::npos;
  });
}

BOOST_AUTO_TEST_CASE(a_run_that_is_not_trusted_may_lack_a_number) {
  SyntheticRun run;
  run.result.verdict = Verdict::not_trusted;
  run.result.distrust = {"the stress at (1, 2, 3) is not a number"};
  run.result.displacement_max_mm = run.result.balance.residual =
      std::numeric_limits<double>::quiet_NaN();

  const json j = summary_of(run);

  BOOST_TEST(j["displacement_max_mm"].is_null());
  BOOST_TEST(valid(j));
}

BOOST_AUTO_TEST_CASE(with_a_gas_inside_its_warning_comes_first) {
  SyntheticRun run;
  run.case_file.conditions.medium = Medium::gas;
  run.result.warnings = {"another one"};

  const json warnings = summary_of(run)["warnings"];

  BOOST_TEST_REQUIRE(warnings.size() == 2U);
  BOOST_TEST(warnings[0].get<std::string>().find("1.52 J") != std::string::npos);
}
