// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_file.h"

namespace crossgrain {

/// What every report says of the things a strength analysis cannot see. With a gas the warning
/// about its stored energy comes first.
std::vector<std::string> usual_cautions(const Conditions& conditions);

}  // namespace crossgrain
