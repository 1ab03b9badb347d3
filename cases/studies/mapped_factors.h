// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>

#include "cases/studies/directional_answer.h"

namespace crossgrain {

/// Factors of one print direction, the least over the load cases that speak for service, as a run
/// reports them. Absent: no limit found.
struct MappedFactors {
  std::map<FailureMode, std::optional<double>> on_all_loads;
  std::map<FailureMode, std::optional<double>> on_scaling_loads;
  std::optional<double> factor;           ///< on all loads, the worst mode
  std::optional<double> pressure_factor;  ///< on the scaling loads alone
  std::optional<FailureMode> governing;   ///< of the worse of the two
  std::optional<double> worst() const;    ///< the worse of the two
};

/// Judge the stress of every load case.
/// @param cases  of the loading, in the order of `stress`.
MappedFactors judge_direction(const std::vector<LoadCase>& cases,
                              const std::vector<DirectionalAnswer::CaseStress>& stress,
                              const StressSites& sites, const JudgedModel& model, int threads);

/// The greatest difference of a factor that governs or comes within `reach` of it in either,
/// relative to the second: by mode, on all loads and on the scaling ones.
double greatest_difference(const MappedFactors& mapped, const MappedFactors& solved, double reach);

/// Sites where a mode's multiplier is less than `margin` times the mode's least, on all loads or on
/// the scaling ones.
/// @return of each of the model's sites, whether it is one.
std::vector<char> sites_near_the_least(const DirectionalAnswer& answer,
                                       const std::vector<LoadCase>& cases, const JudgedModel& model,
                                       const Eigen::Vector3d& direction, double margin);

}  // namespace crossgrain
