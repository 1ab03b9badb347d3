// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/read_summary.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "tools/results/plain_text.h"
#include "tools/results/summary_json.h"

namespace crossgrain {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

json parse(const fs::path& file) {
  std::ifstream in(file);
  if (!in) {
    throw std::invalid_argument(file.string() +
                                " cannot be read; give the directory of a finished run");
  }
  try {
    return json::parse(in);
  } catch (const json::parse_error& error) {
    throw std::invalid_argument(file.string() + " is not a summary: it is not JSON at byte " +
                                std::to_string(error.byte));
  }
}

std::string text(const json& value) { return plain_text(value.get_ref<const std::string&>()); }

std::optional<double> number(const json& value) {
  if (value.is_null()) return std::nullopt;
  return value.get<double>();
}

FactorRange factor_range(const json& value) {
  return {number(value.at("value")), number(value.at("low")), number(value.at("high"))};
}

RunSummary summary_of(const json& document) {
  RunSummary run;
  run.title = text(document.at("title"));
  run.case_file = text(document.at("case_file"));
  run.verdict = text(document.at("verdict"));
  for (const json& setting : document.at("settings")) {
    run.settings.emplace_back(text(setting.at("name")), text(setting.at("value")));
  }
  run.factor = factor_range(document.at("safety_factor"));
  run.pressure_factor = factor_range(document.at("pressure_factor"));
  if (const json& governing = document.at("governing"); !governing.is_null()) {
    run.governing_case = text(governing.at("load_case"));
    run.governing_mode = text(governing.at("mode"));
    run.governing_body = text(governing.at("body"));
  }
  run.working_pressure_MPa = number(document.at("working_pressure_MPa"));
  run.allowable_pressure_MPa = number(document.at("allowable_pressure_MPa"));
  run.proof_pressure_MPa = number(document.at("proof_pressure_MPa"));
  run.displacement_max_mm = number(document.at("displacement_max_mm"));
  run.strain_energy_mJ = number(document.at("strain_energy_mJ"));
  run.mass_g = 0.0;
  for (const json& body : document.at("bodies")) *run.mass_g += body.at("mass_g").get<double>();
  for (const json& load_case : document.at("load_cases")) {
    run.case_factors.emplace_back(
        case_title(text(load_case.at("name")), text(load_case.at("bound"))),
        factor_range(load_case.at("safety_factor")));
  }
  return run;
}

}  // namespace

RunSummary read_run_summary(const fs::path& run) {
  const fs::path file = fs::is_directory(run) ? run / "summary.json" : run;
  const json document = parse(file);
  try {
    const int version = document.at("schema_version").get<int>();
    if (version != summary_schema_version) {
      throw std::invalid_argument(file.string() + " has schema version " + std::to_string(version) +
                                  ", this program reads " + std::to_string(summary_schema_version) +
                                  "; run its case again");
    }
    return summary_of(document);
  } catch (const json::exception& error) {
    // What nlohmann says after its own number: "key 'verdict' not found".
    const std::string what = error.what();
    throw std::invalid_argument(file.string() +
                                " is not a summary of a run: " + what.substr(what.find("] ") + 2));
  }
}

}  // namespace crossgrain
