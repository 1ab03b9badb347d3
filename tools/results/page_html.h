// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tools/results/page_arrays.h"

namespace crossgrain {

/// A self-contained page: the template that tools/page/ builds, with its data.
/// @param kind       "report", "directions" or "faces": which of the template's pages it becomes.
/// @param documents  JSON by name; no text in it can end the element that holds it.
struct PageDocument {
  std::string name;
  std::string json;
};
std::string page_html(std::string_view kind, const std::vector<PageDocument>& documents,
                      const std::vector<PackedArray>& arrays);

/// JSON with every "<" and "&" written as an escape: harmless inside any element.
std::string json_for_html(std::string_view json);

}  // namespace crossgrain
