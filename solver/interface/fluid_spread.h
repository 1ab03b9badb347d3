// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Geometry>
#include <vector>

#include "solver/interface/interface_point.h"

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
  /// Points between the same two triangles, which follow one another.
  struct Cell {
    std::size_t first, last;  ///< points
    Eigen::AlignedBox3d box;  ///< of the points' neighbourhoods
    std::vector<int> beside;  ///< cells whose triangles touch these, itself among them
  };
  /// A flood on its way.
  class Flood;

  std::vector<int> nodes_of(const Cell& cell) const;
  void find_cells();
  void find_cells_beside();
  bool comes_from(const std::vector<bool>& wetted, std::size_t point) const;

  const TetrahedronMesh& mesh_;
  const std::vector<InterfacePoint>& points_;
  std::vector<double> radius_;  ///< of a point's neighbourhood [mm]
  std::vector<Cell> cells_;
  std::vector<int> cell_of_point_;
};

}  // namespace crossgrain
