// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>

#include "cases/judgement/governing_state.h"

namespace crossgrain {

/// The stress at the nodes of a governing state's load case, instead of what a bead feels: what a
/// reader of other programs expects to see, and at edges without limit a matter of the mesh alone.
class RawStress {
 public:
  /// Keeps all by reference.
  RawStress(const GoverningState& state, const JudgedModel& model, const Loading& loading,
            const ElementarySolution& solution, const MaterialField& field);

  /// Judged as the governing factor was: on all loads, or on the scaling ones.
  std::optional<ModeResult> worst() const;
  /// Along every CAD edge of the governing body the least factor, near supports, too.
  std::map<EdgeId, RawAtEdge> at_edges(const Geometry& geometry) const;

 private:
  const GoverningState& state_;
  const JudgedModel& model_;
  Yardstick yardstick_;
  StressField held_, scaling_;  ///< 6 x sites [MPa], material axes
};

}  // namespace crossgrain
