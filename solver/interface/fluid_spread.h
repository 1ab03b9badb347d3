// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/interface/interface_point.h"
#include "solver/location/box_tree.h"

namespace crossgrain {

/// Which points a fluid reaches from nodes that it wets: through neighbours where it may enter.
/// Neighbours lie on triangles that touch, of either face, and at most half an edge apart. A line
/// that seals must be half an edge wide to be seen.
class FluidSpread {
 public:
  /// @param points  of all pairs; kept by reference, as is the mesh.
  FluidSpread(const TetrahedronMesh& mesh, const std::vector<InterfacePoint>& points);

  /// @param may_enter  by point.  @param wetted_nodes  where it comes from.
  /// @return by point: whether it comes there.
  std::vector<bool> reached(const std::vector<bool>& may_enter,
                            const std::vector<int>& wetted_nodes) const;

 private:
  bool neighbours(std::size_t a, std::size_t b) const;

  const TetrahedronMesh& mesh_;
  const std::vector<InterfacePoint>& points_;
  std::vector<double> radius_;  ///< of a point's neighbourhood [mm]
  BoxTree boxes_;
};

}  // namespace crossgrain
