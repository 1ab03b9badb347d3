// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_text.h"

#include "tools/results/summary_sections.h"

namespace crossgrain {

std::string summary_text(const RunOutputs& outputs, const ReadingUnits& units) {
  return verdict_section(outputs) + pressure_section(outputs, units) +
         weak_places_section(outputs, units) + constants_section(outputs, units) +
         load_cases_section(outputs, units) + joint_section(outputs, units) +
         forces_section(outputs) + hand_calculation_section(outputs, units) +
         trust_section(outputs) + materials_section(outputs, units) +
         probes_section(outputs, units) + time_section(outputs) + closing_section(outputs);
}

}  // namespace crossgrain
