// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>

namespace crossgrain {

// Numbers as `inspect` prints them, counted from 1 in the order of the STEP file's solids.
// Real types: an alias of int would let a face be taken for a body.
enum class BodyId : std::int32_t {};
enum class FaceId : std::int32_t {};
enum class EdgeId : std::int32_t {};

constexpr std::int32_t number(BodyId id) { return static_cast<std::int32_t>(id); }
constexpr std::int32_t number(FaceId id) { return static_cast<std::int32_t>(id); }
constexpr std::int32_t number(EdgeId id) { return static_cast<std::int32_t>(id); }
/// Position in the geometry's vectors.
constexpr std::size_t index(BodyId id) { return static_cast<std::size_t>(number(id) - 1); }
constexpr std::size_t index(FaceId id) { return static_cast<std::size_t>(number(id) - 1); }
constexpr std::size_t index(EdgeId id) { return static_cast<std::size_t>(number(id) - 1); }

}  // namespace crossgrain
