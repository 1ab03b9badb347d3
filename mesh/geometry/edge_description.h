// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Edge.hxx>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// What an edge is by itself: everything of CadEdge but its id and what its faces
/// make of it.
CadEdge describe_edge(const TopoDS_Edge& edge);

}  // namespace crossgrain
