// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <string>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// A number as the summary shows it: three digits are all that a strength is known to.
std::string number_text(double value, int significant_digits = 3);

/// "3.42"; "no limit found" if absent.
std::string factor_text(const std::optional<double>& factor);

/// "2.1 to 4.6"; an open end is "no limit"; empty if the ends agree with the value to the digits
/// shown.
std::string range_text(const FactorRange& factor);

/// "(0.012, 0, -0.139)": three digits of the largest component, so that rounding noise beside it
/// reads as 0; in N, mm and MPa a millionth is nothing.
std::string vector_text(const Eigen::Vector3d& v);

/// "(12.0, -3.5, 40.0)" [mm].
std::string position_text(const Eigen::Vector3d& position);

/// "+Z", or "(0.707, 0.000, 0.707)" for a direction that is no axis.
std::string direction_text(const Eigen::Vector3d& direction);

}  // namespace crossgrain
