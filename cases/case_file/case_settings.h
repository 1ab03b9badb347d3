// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cases/case_file/case_file.h"

namespace crossgrain {

/// What a case asks for, as name and value in words: bodies, conditions, loads, joint, supports,
/// targets, mesh. Two runs whose settings are equal asked the same question.
using CaseSettings = std::vector<std::pair<std::string, std::string>>;

CaseSettings case_settings(const CaseFile& case_file);

}  // namespace crossgrain
