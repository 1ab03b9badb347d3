// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/number_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crossgrain {

std::string number_text(double value, int significant_digits) {
  if (!std::isfinite(value)) return fmt::format("{}", value);
  if (value == 0.0) return "0";
  // The exponent after rounding: 9.999 to three digits is 10.0, not 10.00.
  const std::string scientific = fmt::format("{:.{}e}", value, significant_digits - 1);
  const int exponent = std::stoi(scientific.substr(scientific.find('e') + 1));
  if (exponent < -3 || exponent >= 6) return scientific;
  std::string text = fmt::format("{:.{}f}", value, std::max(0, significant_digits - 1 - exponent));
  // "0.4 MPa" as people write it, not "0.400 MPa".
  while (text.find('.') != std::string::npos && (text.back() == '0' || text.back() == '.')) {
    const bool point = text.back() == '.';
    text.pop_back();
    if (point) break;
  }
  return text;
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
