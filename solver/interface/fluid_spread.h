// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Which points of a pair a fluid reaches from nodes that it wets: through neighbours, half a
/// triangle's edge apart at most, where it may enter. A line that seals must be half an edge wide
/// to be seen.
class FluidSpread {
 public:
  /// @param points  of one pair; kept by reference, as is the mesh.
  FluidSpread(const TetrahedronMesh& mesh, const std::vector<InterfacePoint>& points);
  ~FluidSpread();
  FluidSpread(FluidSpread&&) noexcept;

  std::size_t size() const { return points_.size(); }

  /// @param may_enter  by point.  @param wetted_nodes  where it comes from.
  /// @return by point: whether it comes there.
  std::vector<bool> reached(const std::vector<bool>& may_enter,
                            const std::vector<int>& wetted_nodes) const;

 private:
  struct Tree;
  const TetrahedronMesh& mesh_;
  const std::vector<InterfacePoint>& points_;
  std::vector<double> radius_;  ///< of a point's neighbourhood [mm]
  std::unique_ptr<Tree> tree_;
};

}  // namespace crossgrain
