// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/svg_parts.h"

#include <fmt/format.h>

#include "tools/results/plain_text.h"

namespace crossgrain {

std::string svg_text(double x, double y, const std::string& words, const std::string& more) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" {}>{}</text>\n", x, y, more, xml_text(words));
}

}  // namespace crossgrain
