// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/face_choice/face_choice.h"

namespace crossgrain {

/// Try every choice of faces in a case on a part, so that a wrong one is told before the part is
/// meshed.
/// @throws std::invalid_argument as choose_faces does, for the first that fails.
void try_choices(const CaseFile& case_file, const Geometry& geometry, const Features& features);

}  // namespace crossgrain
