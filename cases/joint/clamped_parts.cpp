// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/clamped_parts.h"

#include <cmath>
#include <numbers>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

/// Cones that the clamped length holds per length of one: two meet half way in a through joint.
double cone_factor(Clamping clamping) { return clamping == Clamping::through ? 1.0 : 2.0; }

double cone_tangent(Clamping clamping, const ClampedParts& parts) {
  const double slenderness = parts.length / parts.head_diameter;
  const double width = std::log(parts.outer / parts.head_diameter);
  if (clamping == Clamping::through) {
    return 0.362 + 0.032 * std::log(0.5 * slenderness) + 0.153 * width;
  }
  return 0.348 + 0.013 * std::log(slenderness) + 0.193 * width;
}

void require_stack(const ClampedParts& parts) {
  positive(parts.length, "clamped length", "mm");
  positive(parts.modulus, "modulus of clamped parts", "MPa");
  require_ring(parts.head_diameter, parts.hole, "a screw's head on its hole");
  require_ring(parts.outer, parts.hole, "material round a screw's hole");
}

}  // namespace

double cone_limit_diameter(Clamping clamping, const ClampedParts& parts) {
  require_stack(parts);
  return parts.head_diameter + cone_factor(clamping) * parts.length * cone_tangent(clamping, parts);
}

double clamped_compliance(Clamping clamping, const ClampedParts& parts) {
  require_stack(parts);
  const double dW = parts.head_diameter, dh = parts.hole, DA = parts.outer;
  const double ring = DA * DA - dh * dh;
  const double E_pi = parts.modulus * std::numbers::pi;
  if (DA <= dW) return 4.0 * parts.length / (E_pi * ring);
  const double w = cone_factor(clamping);
  const double tangent = cone_tangent(clamping, parts);
  const double base = std::min(DA, cone_limit_diameter(clamping, parts));
  const double cone =
      2.0 / (w * dh * tangent) * std::log((dW + dh) * (base - dh) / ((dW - dh) * (base + dh)));
  const double sleeve_length = parts.length - (base - dW) / (w * tangent);
  return (cone + 4.0 * sleeve_length / ring) / E_pi;
}

}  // namespace crossgrain
