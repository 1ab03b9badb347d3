// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace crossgrain {

/// On whose authority a limit of the joint stands.
enum class LimitStanding { standard, given, data_sheet, memory, estimated };

/// "a standard's", "as given", "data sheet", "from memory", "estimated"
constexpr std::string_view words(LimitStanding standing) {
  switch (standing) {
    case LimitStanding::standard:
      return "a standard's";
    case LimitStanding::given:
      return "as given";
    case LimitStanding::data_sheet:
      return "data sheet";
    case LimitStanding::memory:
      return "from memory";
    case LimitStanding::estimated:
      return "estimated";
  }
  return "";
}

/// Whether a joint that breaks the limit fails; what is remembered or estimated leaves doubt.
constexpr bool is_firm(LimitStanding standing) {
  return standing != LimitStanding::memory && standing != LimitStanding::estimated;
}

}  // namespace crossgrain
