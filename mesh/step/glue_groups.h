// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Shape.hxx>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/import_options.h"

namespace crossgrain {

/// A body, or after gluing a piece of it.
struct BodyShape {
  BodyId body;
  TopoDS_Shape shape;
};

/// The bodies parted into groups, each to be glued together for itself: a body belongs to the group
/// of each that it comes near and is not kept apart from.
/// @throws std::invalid_argument if two bodies kept apart are in one group by way of others: gluing
/// a group glues whatever touches in it.
std::vector<std::vector<BodyShape>> glue_groups(const std::vector<BodyShape>& bodies,
                                                const Geometry& geometry,
                                                const std::vector<KeptApart>& apart);

}  // namespace crossgrain
