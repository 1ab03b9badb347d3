// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/judgement/run_result.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// What became of the faces that meet in a load case at multiplier 1, which is one state of the
/// joint.
/// @return one for each of the joint's pairs, in their order.
std::vector<MeetingFaces> meeting_faces(const LoadCase& load_case, const JoinedBodies& joined,
                                        const ElementarySolution& solution);

/// In words, how far a fluid has come between faces that only press: of every such contact the load
/// case in which it wets most of them.
/// @param cases  with their meetings, contacts first.
std::vector<std::string> flooded_contacts(const std::vector<ContactSpec>& contacts,
                                          const std::vector<CaseResult>& cases);

}  // namespace crossgrain
