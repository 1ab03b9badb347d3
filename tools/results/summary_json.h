// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "tools/results/run_outputs.h"

namespace crossgrain {

/// Raised when a key of summary.json is renamed, dropped or changes its meaning; new keys leave it.
inline constexpr int summary_schema_version = 1;

/// The content of summary.json, described by summary.schema.json: units in the key names, numbers
/// finite, null where no limit was found or nothing applies (and where a run that is not trusted
/// has a number that is none).
/// @throws std::runtime_error naming the key whose number is not finite in a run that is to be
/// trusted.
std::string summary_json(const RunOutputs& outputs);

/// Stable names in results: "pass", "marginal", "fail", "not_trusted".
std::string_view name_of(Verdict verdict);
/// "assembly", "working", "user", "proof".
std::string_view name_of(CaseKind kind);

}  // namespace crossgrain
