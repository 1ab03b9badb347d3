// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "cases/judgement/run_result.h"

namespace crossgrain {

// An absent factor means "no limit found": it counts as larger than every number.

bool is_less(const std::optional<double>& a, const std::optional<double>& b);
std::optional<double> least(const std::optional<double>& a, const std::optional<double>& b);
std::optional<double> greatest(const std::optional<double>& a, const std::optional<double>& b);

/// A factor without a range.
FactorRange only(const std::optional<double>& value);

/// low = least, high = greatest of both; the value stays.
void widen_range(FactorRange& range, const FactorRange& other);

/// The least of each end: the range of the worse of two factors.
FactorRange worse_of(const FactorRange& a, const FactorRange& b);

}  // namespace crossgrain
