// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace crossgrain {

/// A table for a terminal: columns as wide as their widest cell, two spaces apart, indented by two.
/// A column is set to the right if its heading begins with '>', which is not printed. Widths count
/// characters, not bytes.
std::string table_text(const std::vector<std::string>& headings,
                       const std::vector<std::vector<std::string>>& rows);

}  // namespace crossgrain
