// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/pressure_units.h"
#include "tools/results/run_outputs.h"

namespace crossgrain {

// Private to tools/results: the sections of summary.md, each with its heading and a final empty
// line; empty if there is nothing to say.

std::string verdict_section(const RunOutputs& outputs);
std::string pressure_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string weak_places_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string constants_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string load_cases_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string hand_calculation_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string joint_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string forces_section(const RunOutputs& outputs);
std::string probes_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string trust_section(const RunOutputs& outputs);
std::string materials_section(const RunOutputs& outputs, const ReadingUnits& units);
std::string time_section(const RunOutputs& outputs);
std::string closing_section(const RunOutputs& outputs);

}  // namespace crossgrain
