// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/screw_strength.h"

#include <sstream>
#include <stdexcept>
#include <vector>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

const std::vector<ScrewStrength>& classes() {
  // 8.8: the values for sizes up to M16.
  static const std::vector<ScrewStrength> known = {
      {"4.8", 340.0, 310.0},          {"5.8", 420.0, 380.0},
      {"6.8", 480.0, 440.0},          {"8.8", 640.0, 580.0},
      {"10.9", 940.0, 830.0},         {"12.9", 1100.0, 970.0},
      {"A2-50", 210.0, std::nullopt}, {"A2-70", 450.0, std::nullopt},
      {"A2-80", 600.0, std::nullopt}, {"A4-50", 210.0, std::nullopt},
      {"A4-70", 450.0, std::nullopt}, {"A4-80", 600.0, std::nullopt},
  };
  return known;
}

}  // namespace

ScrewStrength screw_class(std::string_view name) {
  for (const ScrewStrength& known : classes()) {
    if (known.name == name) return known;
  }
  throw std::invalid_argument("screw class '" + std::string(name) + "' is not known; known are " +
                              known_screw_classes() + ", or give the screw's yield strength");
}

std::string known_screw_classes() {
  std::string list;
  for (const ScrewStrength& known : classes()) list += (list.empty() ? "" : ", ") + known.name;
  return list;
}

ScrewStrength given_screw_strength(double yield) {
  positive(yield, "yield strength of a screw", "MPa");
  std::ostringstream name;
  name << "yield " << yield << " MPa as given";
  return {name.str(), yield, std::nullopt};
}

double proof_load(const ScrewStrength& strength, const ScrewSize& size) {
  return strength.proof_stress.value_or(strength.yield) * size.stress_area;
}

}  // namespace crossgrain
