// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_lines.h"

#include <algorithm>
#include <stdexcept>

namespace crossgrain {
namespace {

JointLimit in_service(const SealFacts& seal, double pressure) {
  return {contact_in_service(pressure, seal.constants.m, seal.margin), LimitStanding::standard,
          "the greater of 2 m (ASME VIII-1 Appendix 2) and 1 + margin, times the fluid's pressure"};
}

}  // namespace

std::vector<SealPoint> pressed_places(const SealFacts& seal, const std::vector<double>& contact) {
  if (contact.size() != seal.points.size()) {
    throw std::invalid_argument(std::to_string(contact.size()) + " contacts for " +
                                std::to_string(seal.points.size()) + " places");
  }
  std::vector<SealPoint> points = seal.points;
  for (std::size_t i = 0; i < points.size(); ++i) points[i].contact = contact[i];
  return points;
}

std::vector<JointLine> seal_lines(const SealFacts& seal, const std::vector<double>& contact,
                                  const JointStateFacts& state) {
  std::vector<JointLine> lines;
  const auto add = [&](JointMode mode, double value, const JointLimit& limit) -> JointLine& {
    lines.push_back(
        {mode, seal.name, value, limit, state.situation, state.level, std::nullopt, ""});
    return lines.back();
  };
  try {
    const std::vector<SealPoint> points = pressed_places(seal, contact);
    const LeakPath leak = leak_paths(points, seal.width).front();
    const auto add_level = [&](JointMode mode, const JointLimit& limit) {
      JointLine& line = add(mode, leak.level, limit);
      line.place = points[leak.tightest].position;
      line.note = "gives way first towards " + std::string(words(leak.exit));
    };
    if (state.tightening) {
      add_level(JointMode::seal_at_assembly,
                {seal.at_assembly.pressure, seal.at_assembly.standing, seal.at_assembly.rule});
    }
    if (state.fluid_pressure > 0.0) {
      add_level(JointMode::seal_in_service, in_service(seal, state.fluid_pressure));
    }
    if (seal.greatest_contact) {
      const auto averaged = averaged_contact(points, seal.width);
      const auto most = std::max_element(averaged.begin(), averaged.end());
      JointLine& line = add(JointMode::gasket_crushed, *most, *seal.greatest_contact);
      line.place = points[most - averaged.begin()].position;
    }
  } catch (const std::invalid_argument& problem) {
    throw std::invalid_argument("seal '" + seal.name + "' in '" + state.situation +
                                "': " + problem.what());
  }
  return lines;
}

}  // namespace crossgrain
