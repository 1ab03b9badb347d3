// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/case_file/case_file.h"

namespace crossgrain {

/// The STEP files of a case, in the order in which its bodies name them: entries of one file at one
/// scale in one place are one.
ImportOptions import_options(const CaseFile& case_file);

/// Whether two entries choose solids of one file in one place.
bool same_source(const BodySpec& a, const BodySpec& b);

/// The case file's entry for each imported body; a body that the case leaves out gets the first one
/// of its file.
std::vector<const BodySpec*> spec_of_body(const CaseFile& case_file, const Geometry& geometry);

}  // namespace crossgrain
