// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_settings.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// What a finished run's summary holds that is worth comparing.
struct RunSummary {
  std::string title;
  std::string case_file;
  std::string verdict;
  CaseSettings settings;
  FactorRange factor;
  FactorRange pressure_factor;
  std::string governing_case;
  std::string governing_mode;
  std::string governing_body;
  std::optional<double> working_pressure_MPa;
  std::optional<double> allowable_pressure_MPa;
  std::optional<double> proof_pressure_MPa;
  std::optional<double> displacement_max_mm;
  std::optional<double> strain_energy_mJ;
  std::optional<double> mass_g;
  std::vector<std::pair<std::string, FactorRange>> case_factors;  ///< load case and bound, factor
};

/// One line of the comparison.
struct ComparedValue {
  std::string quantity;
  std::string first;
  std::string second;
  std::string change;  ///< "+12 %", or empty
  /// Of a pressure only, whose first and second are in MPa: a reader may want another unit.
  std::optional<double> first_MPa = {};
  std::optional<double> second_MPa = {};
};

struct Comparison {
  std::vector<ComparedValue> settings;  ///< only what differs
  std::vector<ComparedValue> results;   ///< always all
  std::vector<std::string> sentences;   ///< what to make of it
};

Comparison compare_runs(const RunSummary& first, const RunSummary& second);

}  // namespace crossgrain
