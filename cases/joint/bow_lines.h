// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/joint/joint_facts.h"
#include "cases/joint/measured_bow.h"

namespace crossgrain {

/// How unevenly a flange presses a seal from screw to screw, and how far apart the screws stand: at
/// the moment of tightening, before a fluid relieves the seal; other states have no lines. The
/// unevenness is told by the bow number of the row of screws whose squeeze is as uneven.
/// @param spans  of the seal in this state; empty: not known, no lines.
std::vector<JointLine> bow_lines(const SealFacts& seal, const std::vector<SpanBow>& spans,
                                 const JointStateFacts& state);

}  // namespace crossgrain
