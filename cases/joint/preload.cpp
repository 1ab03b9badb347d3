// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/preload.h"

#include <stdexcept>
#include <string>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

/// Torque per newton of preload [mm].
double lever(const ScrewSize& size, double head_diameter, const TighteningFriction& friction) {
  positive(friction.head, "friction under a screw's head", "-");
  if (!(head_diameter > size.clearance_hole)) {
    throw std::invalid_argument("a head of " + std::to_string(head_diameter) +
                                " mm falls through " + "the clearance hole of " +
                                std::string(size.name) + ", " +
                                std::to_string(size.clearance_hole) +
                                " mm; give the head's or the washer's outer diameter");
  }
  const double mean_head_diameter = 0.5 * (head_diameter + size.clearance_hole);
  return thread_torque(1.0, size, friction.thread) + 0.5 * mean_head_diameter * friction.head;
}

}  // namespace

double tightening_torque(double preload, const ScrewSize& size, double head_diameter,
                         const TighteningFriction& friction) {
  return preload * lever(size, head_diameter, friction);
}

double preload_from_torque(double torque, const ScrewSize& size, double head_diameter,
                           const TighteningFriction& friction) {
  return torque / lever(size, head_diameter, friction);
}

double thread_torque(double preload, const ScrewSize& size, double thread_friction) {
  positive(thread_friction, "friction in a screw's thread", "-");
  return preload * (0.159 * size.pitch + 0.577 * size.pitch_diameter() * thread_friction);
}

std::string_view words(PreloadLevel level) {
  switch (level) {
    case PreloadLevel::least:
      return "least";
    case PreloadLevel::nominal:
      return "nominal";
    case PreloadLevel::greatest:
      return "greatest";
  }
  return "";
}

double preload_at(const PreloadRange& range, PreloadLevel level) {
  switch (level) {
    case PreloadLevel::least:
      return range.least;
    case PreloadLevel::nominal:
      return range.nominal;
    case PreloadLevel::greatest:
      return range.greatest;
  }
  throw std::logic_error("preload_at: unknown level");
}

PreloadRange scattered_preload(double nominal, double scatter) {
  if (!(scatter >= 1.0)) {
    throw std::invalid_argument("scatter " + std::to_string(scatter) +
                                " of a preload is below 1; it is greatest over least");
  }
  const double least = 2.0 * nominal / (1.0 + scatter);
  return {least, nominal, scatter * least};
}

double usual_scatter(Tightening tightening) {
  return tightening == Tightening::torque_wrench ? 2.0 : 4.0;
}

}  // namespace crossgrain
