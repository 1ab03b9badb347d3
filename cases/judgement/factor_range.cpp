// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/factor_range.h"

namespace crossgrain {

bool is_less(const std::optional<double>& a, const std::optional<double>& b) {
  return a && (!b || *a < *b);
}

std::optional<double> least(const std::optional<double>& a, const std::optional<double>& b) {
  return is_less(b, a) ? b : a;
}

std::optional<double> greatest(const std::optional<double>& a, const std::optional<double>& b) {
  return is_less(b, a) ? a : b;
}

FactorRange only(const std::optional<double>& value) { return {value, value, value}; }

void widen_range(FactorRange& range, const FactorRange& other) {
  range.low = least(range.low, other.low);
  range.high = greatest(range.high, other.high);
}

FactorRange worse_of(const FactorRange& a, const FactorRange& b) {
  return {least(a.value, b.value), least(a.low, b.low), least(a.high, b.high)};
}

}  // namespace crossgrain
