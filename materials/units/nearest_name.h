// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crossgrain {

/// The known name that a mistyped one most likely means: the fewest letters to insert, drop,
/// change or swap, capitals ignored, and no more than a third of the word. The first of equals.
std::optional<std::string> nearest_name(std::string_view word,
                                        const std::vector<std::string>& known);

/// " (did you mean \"petg\"?)" or nothing, to follow the complaint about a word.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

}  // namespace crossgrain
