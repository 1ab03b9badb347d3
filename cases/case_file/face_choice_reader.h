// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

#include "cases/case_file/case_table.h"

namespace crossgrain {

/// Read the choice of faces under `key`.
/// @return nothing if the key is absent (reported if it is required).
std::optional<FaceChoice> read_face_choice(const CaseTable& table, std::string_view key);

/// A choice that must be there; reported, and one of nothing, if it is not.
inline FaceChoice required_faces(const CaseTable& table, std::string_view key) {
  return read_face_choice(table, key).value_or(FaceChoice{});
}

}  // namespace crossgrain
