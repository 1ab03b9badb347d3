// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "cases/face_choice/parted_bodies.h"
#include "mesh/features/features.h"

namespace crossgrain {

/// What a case's contacts and its gaskets between bodies say of faces that meet. A clearance below
/// zero allows that much interference.
/// @throws std::invalid_argument as choose_faces does.
std::vector<StatedMeeting> stated_meetings(const CaseFile& case_file, const Geometry& geometry,
                                           const Features& features);

}  // namespace crossgrain
