// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// A load case's factor on the scaling loads where a joint answers them: faces part and fluid
/// follows, so that stress does not grow in proportion. (On all loads together, preload included,
/// it does, but for gaps, embedding and warmth.)
struct FollowedFactor {
  std::size_t load_case;
  Judgement judgement = {};    ///< by the straight line to the state that was solved last
  double multiple = 0.0;       ///< of the scaling loads, in that state
  std::string unsettled = {};  ///< why the factor is not that of a solved state; empty: it is
};

/// Follow the weakest load cases of joined bodies: solve the state at the factor that the straight
/// line to the state at multiple 1 promises, judge by the line to that one, until both agree within
/// a hundredth. Done once the weakest case has been followed. Of bodies that are not joined nothing
/// needs to be followed.
/// @param results  with the nominal material set, in the order of the loading's cases.
/// @param solver   with that set's stiffness.
std::vector<FollowedFactor> follow_factors(const std::vector<CaseResult>& results,
                                           StaticSolver& solver, const JudgedModel& model,
                                           const Loading& loading, const MaterialField& field,
                                           const ElementarySolution& solution);

/// Put a followed factor in the place of the straight line's. The ends of its range, found on
/// straight lines, keep their ratios to the value; an allowable pressure is lowered with the
/// factor, never raised.
void take_in(const FollowedFactor& followed, CaseResult& result);

}  // namespace crossgrain
