// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace crossgrain {

/// A line of text at a place of a drawing, its characters escaped.
/// @param more  attributes
std::string svg_text(double x, double y, const std::string& words, const std::string& more = "");

}  // namespace crossgrain
