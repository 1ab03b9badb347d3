// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/loads/joined_bodies.h"

namespace crossgrain {

/// A group of screws as springs, and what the group has in common.
struct SeatedScrews {
  JoinedScrews group;  ///< `first` is 0
  std::vector<ElasticScrew> screws;
};

/// Every threaded hole of the group with the head that lies on its axis.
/// @param contact_pairs  faces that its pull closes: for the usual embedding.
/// @throws std::invalid_argument naming the place in the case file: no holes chosen, no seat on a
/// hole's axis, a head wider than its seat, no length between head and thread.
SeatedScrews seat_screws(const BoltSpec& spec, int contact_pairs, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field);

}  // namespace crossgrain
