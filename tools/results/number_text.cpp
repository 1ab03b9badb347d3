// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/number_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mesh/geometry/geometry_words.h"

namespace crossgrain {

std::string number_text(double value, int significant_digits) {
  return words(value, significant_digits);
}

std::string factor_text(const std::optional<double>& factor) {
  return factor ? number_text(*factor) : "no limit found";
}

std::string range_text(const FactorRange& factor) {
  const auto end = [](const std::optional<double>& value) {
    return value ? number_text(*value) : "no limit";
  };
  const std::string low = end(factor.low);
  const std::string high = end(factor.high);
  return low == high ? "" : low + " to " + high;
}

std::string vector_text(const Eigen::Vector3d& v) {
  const double largest = v.cwiseAbs().maxCoeff();
  if (!std::isfinite(largest)) return fmt::format("({}, {}, {})", v.x(), v.y(), v.z());
  const double step =
      std::clamp(std::pow(10.0, std::floor(std::log10(std::max(largest, 1e-6))) - 2.0), 1e-6, 1.0);
  const auto at = [&](int i) { return number_text(std::round(v[i] / step) * step + 0.0); };
  return "(" + at(0) + ", " + at(1) + ", " + at(2) + ")";
}

std::string position_text(const Eigen::Vector3d& position) {
  // Adding 0.0 turns a negative zero into a plain one.
  const auto at = [&](int i) { return std::round(position[i] * 10.0) / 10.0 + 0.0; };
  return fmt::format("({:.1f}, {:.1f}, {:.1f})", at(0), at(1), at(2));
}

std::string direction_text(const Eigen::Vector3d& direction) {
  for (int axis = 0; axis < 3; ++axis) {
    if (std::abs(std::abs(direction[axis]) - 1.0) < 1e-9) {
      return fmt::format("{}{}", direction[axis] > 0.0 ? '+' : '-', "XYZ"[axis]);
    }
  }
  const auto at = [&](int i) { return std::round(direction[i] * 1000.0) / 1000.0 + 0.0; };
  return fmt::format("({:.3f}, {:.3f}, {:.3f})", at(0), at(1), at(2));
}

}  // namespace crossgrain
