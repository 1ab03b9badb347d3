// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "cases/judgement/run_result.h"
#include "tools/results/run_outputs.h"

namespace crossgrain {

// Private to tools/results: the JSON of what several files share.

/// Keeps keys in the order they are written, so that a person finds the verdict at the top.
using Json = nlohmann::ordered_json;

/// null if absent or beyond every limit (infinite); NaN stays, for `finished` to refuse.
Json json_number(const std::optional<double>& value);
/// [x, y, z]
Json json_vector(const Eigen::Vector3d& vector);
/// {"xx": ..., "xz": ...} of a stress in global axes, whose order inside is 11 22 33 23 13 12.
Json json_global_stress(const Vector6d& stress);
/// {"value", "low", "high"}
Json json_range(const FactorRange& factor);
/// A range with the mode, the place and the stress there.
Json json_mode(const ModeResult& mode);
/// A range with the governing mode's place, every mode under "modes" and those near artificial
/// supports apart.
Json json_judgement(const Judgement& judgement);

/// What becomes of a number that is none: only a run that says of itself that it is not trusted may
/// hold one.
enum class NotANumber { refused, written_as_null };

/// The text of a finished document: strings made plain, numbers checked.
/// @throws std::runtime_error naming the key whose number is not finite, if refused.
std::string finished(Json document, NotANumber policy);

}  // namespace crossgrain
