// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/run_result.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// What became of the faces that meet in a load case at multiplier 1, which is one state of the
/// joint.
/// @return one for each of the joint's pairs, in their order.
std::vector<MeetingFaces> meeting_faces(const LoadCase& load_case, const JoinedBodies& joined,
                                        const ElementarySolution& solution);

}  // namespace crossgrain
