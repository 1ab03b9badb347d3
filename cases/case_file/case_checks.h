// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "cases/case_file/problems.h"

namespace crossgrain {

/// Bodies that cannot be told from each other, cards and STEP files that are not there.
void check_bodies(const CaseFile& case_file, Problems& problems);

/// What no single table can tell: names given twice, names that refer to nothing, files and
/// cards that are not there, nothing that loads the part.
void check_case(const CaseFile& case_file, Problems& problems);

}  // namespace crossgrain
