// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Three digits are all that a strength is known to.
std::string three_digits(double value);

/// "layers pull apart in 'bowl' at (1, 2, 3) mm on face 12".
std::string what_and_where(const ModeResult& mode);

/// "working (screws take all of the pressure)".
std::string title_of(const CaseResult& result);

/// The case, of those that speak for service (not proof), whose factor on all loads and on the
/// scaling loads is least. -1 if there is none.
int least_case(const RunResult& result);

/// What gives way first, where and at how many times the load.
std::string first_to_give_way(const RunResult& result);

/// Why the range of the factor begins at 0 though its value does not: which limits what is held
/// alone goes past where constants are weak, and in which load case first; empty otherwise.
std::string why_from_zero(const RunResult& result);

/// The verdict in plain words: the factor against the target, what gives way first.
std::string sentence_for(const RunResult& result);

}  // namespace crossgrain
