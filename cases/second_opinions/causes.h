// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/second_opinions/broken_assumptions.h"

namespace crossgrain {

// Private to second_opinions: why a textbook and the field part at one place.

/// Below which the two count as the same; the same share of a stress is no cause.
inline constexpr double agreed = 0.15;

/// A cause, and the value that the textbook would have given with it taken into account.
struct Cause {
  std::string name;
  std::string sentence;
  std::optional<double> corrected;  ///< [MPa]
};

/// What of these makes a value of the field more than 15 % another than the textbook's: one or two
/// whose numbers together come within 15 %, else all that lead towards it.
/// @param others  what is said to be none of the causes where nothing is left.
Difference difference_by(std::vector<Cause> causes, double found, double hand,
                         const std::string& others);

/// "+17 %"
std::string percent(double ratio);
/// Beyond which a disturbance has died out (common practice); for an end 2.5 times it [mm].
double decay_length(const SimpleShape& shape);

// Nothing where the shape has not that cause, or not enough of it.

std::optional<Cause> thick_wall(const ComparedPlace& at);
std::optional<Cause> near_an_end(const ComparedPlace& at);
/// What holds a closed end from outside takes the thrust past the wall.
std::optional<Cause> thrust_held_elsewhere(const ComparedPlace& at);

/// The walls at a plate's edge turn with it.
std::optional<Cause> edge_gives_way(const ComparedPlace& at);
/// What lies beyond a seal, a rim or the walls outside it, holds the edge in part.
std::optional<Cause> edge_held_in_part(const ComparedPlace& at);
std::optional<Cause> pulled_in_its_plane(const ComparedPlace& at);
std::optional<Cause> short_plate(const ComparedPlace& at);

std::optional<Cause> uneven_wall(const ComparedPlace& at);
std::optional<Cause> opening_nearby(const ComparedPlace& at);
std::optional<Cause> stiffness_by_direction(const ComparedPlace& at);
std::optional<Cause> other_loads(const ComparedPlace& at);

}  // namespace crossgrain
