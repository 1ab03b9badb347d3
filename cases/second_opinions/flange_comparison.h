// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/second_opinions/compared_shapes.h"
#include "cases/second_opinions/screwed_seals.h"

namespace crossgrain {

/// A seal, and what its screws carry of the fluid's thrust in the fields compared [N].
struct AnsweredSeal {
  ScrewedSeal seal;
  double screws_gain;
};

/// The flange of every seal that has one, as a ring that the fluid's thrust turns, beside the field
/// through the ring midway between two screws.
/// @param shapes  of all bodies: the tubes that flanges stand on.
std::vector<HandComparison> compare_flange_rings(const std::vector<AnsweredSeal>& seals,
                                                 const std::vector<SimpleShape>& shapes,
                                                 const Geometry& geometry,
                                                 const ComparedFields& fields);

}  // namespace crossgrain
