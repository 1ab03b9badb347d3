// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/insert_pull_out.h"

namespace crossgrain {

// What an insert's pull does to the plastic round it, beside pulling the insert out. Means over a
// section, from memory: a sharp root of the boss multiplies them (round it), and what setting the
// insert left in the plastic is not known.

/// Insert along the build: stress across the layers at the insert's lower end, over the ring
/// between hole and boss; of a boss wider than d + 2 L no more is reached than a cone of 45 degrees
/// from the insert's ends.
/// @param pull  [N]  @param boss_diameter  [mm]  @return [MPa], to be held by the strength along
/// the build
double tear_off_stress(double pull, const Insert& insert, double boss_diameter);

/// Insert in the layer: stress round the boss that the thread's flanks (30 degrees) and the knurl
/// raise by wedging; it crosses the layers. Thick ring (Lame) under p = pull tan 30 / (pi d L).
/// @return at the insert [MPa], to be held by the strength along the build
double hoop_split_stress(double pull, const Insert& insert, double boss_diameter);

/// Plastic between insert and the boss's outside [mm].
double boss_wall(const Insert& insert, double boss_diameter);

/// Least wall round an insert's hole that let extruded specimens reach their full pull-out force
/// [mm].
/// Source: Kastner et al., J. Manuf. Mater. Process. 7(1):42 (2023), for their insert.
constexpr double least_boss_wall = 2.4;

}  // namespace crossgrain
