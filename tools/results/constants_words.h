// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/judgement/run_result.h"
#include "tools/results/pressure_units.h"

namespace crossgrain {

/// Which constant to measure, as summary.md and the page tell it. Names are as others wrote them.
struct ConstantsWords {
  struct Row {
    std::string name;    ///< "Zt of petg"
    std::string known;   ///< "12 to 25 MPa"
    std::string factor;  ///< "about 2.1 to 4.4": from its low to its high end
    std::string how;     ///< name_of(EffectBasis)
  };
  // The first words, round the name of the constant that matters most; without one all in `before`.
  std::string before, name, after;
  std::vector<Row> rows;  ///< of those that matter: the first of RunResult::constant_effects
  std::string notes;      ///< what the rows mean, and which constants have none; may be empty
};

/// @return none if every constant is known.
std::optional<ConstantsWords> constants_words(const RunResult& result, const ReadingUnits& units);

}  // namespace crossgrain
