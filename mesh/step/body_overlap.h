// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <Eigen/Core>
#include <TopoDS_Solid.hxx>
#include <optional>
#include <string>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// The space that two solids share.
struct BodyOverlap {
  double volume;             ///< [mm^3]; negative by rounding where they only touch
  Eigen::Vector3d centroid;  ///< [mm]
  TopoDS_Shape shape;
};

/// @return none if the kernel fails.
std::optional<BodyOverlap> overlap_of(const TopoDS_Shape& a, const TopoDS_Shape& b);

/// How deep one solid reaches into the other, from the points of the overlap's triangles: as far as
/// any of them lies from the nearer surface that it is not on [mm]. A press fit's depth is its
/// radial interference.
double overlap_depth(const BodyOverlap& overlap, const TopoDS_Shape& a, const TopoDS_Shape& b);

/// Whether boxes of bodies share more than the rounding of faces that touch.
bool may_overlap(const Body& a, const Body& b);
/// Whether bodies do.
bool overlap(const Body& a, const Body& b, const BodyOverlap& overlap);

/// "bodies 1 "a" and 2 "b" overlap by 3 mm^3 near (1, 2, 3)"
std::string overlap_words(const Body& a, const Body& b, const BodyOverlap& overlap);

}  // namespace crossgrain
