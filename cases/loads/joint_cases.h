// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/loads/load_cases.h"

namespace crossgrain {

/// Put states of the joint and load cases made of them into a loading whose `joined` has its
/// pairs, screws and acting loads. A case is held = a state without the scaling loads, scaling =
/// the state with them less the held one: the field on the way between both, which is right where
/// no face opens or closes on that way.
///
/// Of every plan the least and the greatest preload, of those that last also after losses.
/// @param loading  leading pressure and working pressure set; `loads` and `cases` are made.
void combine_joint_cases(const CaseFile& case_file, Loading& loading);

}  // namespace crossgrain
