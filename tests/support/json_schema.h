// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

namespace crossgrain::testing {

/// Whether a JSON file fits a schema of tools/results, judged by Debian's python3-jsonschema;
/// faults are printed.
bool fits_schema(const std::filesystem::path& file, const std::string& schema);
bool fits_schema(const nlohmann::json& document, const std::string& schema);

}  // namespace crossgrain::testing
