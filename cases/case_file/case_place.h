// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

#include "cases/case_file/case_file.h"

namespace crossgrain {

/// "case.toml:12: ", for the head of a message.
inline std::string at(const Place& place) {
  return place.file + ":" + std::to_string(place.line) + ": ";
}

/// Run `work`; an error of the user's in it is told with its place in the case file.
/// @param what  the table and its name: "[[bolt]] 'flange screws'".
template <typename Work>
auto told_at(const Place& place, const std::string& what, const Work& work) {
  try {
    return work();
  } catch (const std::invalid_argument& error) {
    const std::string message = error.what();
    if (!place.file.empty() && message.starts_with(place.file + ":")) throw;  // it says already
    throw std::invalid_argument(at(place) + what + ": " + message);
  }
}

}  // namespace crossgrain
