// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/interface/interface_point.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// Stiffness of an interface's points as blocks between the nodes of both faces. Their pattern
/// stays: points that are open leave zeros, so that whoever orders the matrix does it once.
class InterfaceBlocks {
 public:
  /// @param points  kept by reference, as is the mesh.
  InterfaceBlocks(const TetrahedronMesh& mesh, const std::vector<InterfacePoint>& points);

  /// Append the blocks. @param tangents  of every point [N/mm^3].
  void append(const std::vector<Eigen::Matrix3d>& tangents,
              std::vector<StiffnessAdditions::Block>& blocks) const;

 private:
  /// The points of one pair of triangles, which follow one another.
  struct Pair {
    std::size_t first, last;    ///< points
    std::array<int, 78> slots;  ///< of nodes a <= b among the pair's twelve
  };
  const TetrahedronMesh& mesh_;
  const std::vector<InterfacePoint>& points_;
  std::vector<Pair> pairs_;
  std::vector<std::pair<int, int>> nodes_;  ///< of every slot, ascending
};

/// Nodal forces of a traction on the second face, and its opposite on the first: added to `forces`.
void add_traction(const TetrahedronMesh& mesh, const InterfacePoint& point,
                  const Eigen::Vector3d& traction, Eigen::VectorXd& forces);

}  // namespace crossgrain
