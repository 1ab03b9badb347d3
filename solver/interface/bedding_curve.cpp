// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/bedding_curve.h"

#include <algorithm>

namespace crossgrain {
namespace {

constexpr double most_stretched_squeeze = 0.9;

}  // namespace

BeddingPressure bedding_pressure(const Bedding& bedding, double squeeze) {
  const double slope = bedding.modulus / bedding.thickness;
  if (!bedding.stiffens || squeeze <= 0.0) return {slope * squeeze, slope};
  const double share = std::min(squeeze / bedding.thickness, most_stretched_squeeze);
  const double l = 1.0 - share;
  const double steep = slope / 3.0 * (2.0 / (l * l * l) + 1.0);
  return {
      bedding.modulus / 3.0 * (1.0 / (l * l) - l) + steep * (squeeze - share * bedding.thickness),
      steep};
}

}  // namespace crossgrain
