// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>

#include "cases/studies/directional_answer.h"

namespace crossgrain {

/// Where a mode's factor is the least over load cases and sites.
struct WorstPlace {
  FailureMode mode;
  bool on_scaling_loads;  ///< alone, with the held ones held; false: all loads grow
  std::size_t load_case;
  Eigen::Index site;  ///< of those judged
  double factor;
};

/// Factors of one load case in one print direction. Absent: no limit found.
struct CaseFactors {
  std::map<FailureMode, std::optional<double>> on_all_loads;
  std::map<FailureMode, std::optional<double>> on_scaling_loads;  ///< empty: no load scales
  std::optional<double> factor;                                   ///< on all loads, the worst mode
  std::optional<double> pressure_factor;                          ///< on the scaling loads alone
};

/// Which load cases are judged.
enum class JudgedCases {
  for_service,  ///< those that the part's factor is the least of
  every,        ///< proof tests, too, each told for itself
};

/// Factors of one print direction, the least over the load cases that speak for service, as a run
/// reports them. Absent: no limit found.
struct MappedFactors {
  std::map<FailureMode, std::optional<double>> on_all_loads;
  std::map<FailureMode, std::optional<double>> on_scaling_loads;
  std::vector<WorstPlace> places;         ///< of each mode with a limit, in either
  std::optional<double> factor;           ///< on all loads, the worst mode
  std::optional<double> pressure_factor;  ///< on the scaling loads alone
  std::optional<FailureMode> governing;   ///< of the worse of the two
  std::optional<double> worst() const;    ///< the worse of the two
  std::vector<CaseFactors> of_case;  ///< of the loading's, in its order; if every one is judged
};

/// Judge the stress of every load case.
/// @param cases  of the loading, in the order of `stress`.
MappedFactors judge_direction(const std::vector<LoadCase>& cases,
                              const std::vector<DirectionalAnswer::CaseStress>& stress,
                              const StressSites& sites, const JudgedModel& model, int threads,
                              JudgedCases which = JudgedCases::for_service);

/// The same of a solved loading: what the map is held against.
/// @param field  whose solution it is.
MappedFactors judge_solution(const Loading& loading, const ElementarySolution& solution,
                             const MaterialField& field, const JudgedModel& model,
                             JudgedCases which = JudgedCases::for_service);

/// The same of some bodies alone.
MappedFactors judge_solution_of(const std::vector<BodyId>& bodies, const Loading& loading,
                                const ElementarySolution& solution, const MaterialField& field,
                                const JudgedModel& model,
                                JudgedCases which = JudgedCases::for_service);

/// Of two factors, relative to the greater: 1 where only one of them knows a limit.
double relative_difference(const std::optional<double>& a, const std::optional<double>& b);

/// The greatest difference of a factor that governs or comes within `reach` of it in either: by
/// mode, on all loads and on the scaling ones.
double greatest_difference(const MappedFactors& mapped, const MappedFactors& solved, double reach);

/// The same at one's worst places alone, under another stress.
/// @param stress  of every load case, at those places in their order.
/// @param sites   the places.
double greatest_difference(const MappedFactors& mapped, double reach,
                           const std::vector<LoadCase>& cases,
                           const std::vector<DirectionalAnswer::CaseStress>& stress,
                           const StressSites& sites, const JudgedModel& model);

/// Of sites beyond the worst place of a mode, those that are to be kept.
struct KeptSites {
  double reach;         ///< modes within this many times the worst factor count as able to govern
  double able_margin;   ///< of these, sites within this many times the mode's factor
  double other_margin;  ///< of the other modes
};

/// Sites near the worst places of a direction.
/// @param stress   of every load case, at all of the model's sites.
/// @param factors  judged of it.
/// @return of each site, whether it is one.
std::vector<char> sites_near_the_worst(const std::vector<LoadCase>& cases,
                                       const std::vector<DirectionalAnswer::CaseStress>& stress,
                                       const MappedFactors& factors, const KeptSites& kept,
                                       const JudgedModel& model);

/// Sites within a share of the least multiplier of each mode in each load case for itself.
/// @param factors  judged of every case.
/// @param margin   times that multiplier.
std::vector<char> sites_near_each_case(const std::vector<LoadCase>& cases,
                                       const std::vector<DirectionalAnswer::CaseStress>& stress,
                                       const MappedFactors& factors, double margin,
                                       const JudgedModel& model);

}  // namespace crossgrain
