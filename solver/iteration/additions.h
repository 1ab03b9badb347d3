// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crossgrain {

/// Stiffness beside the elements', which may change between solutions on one mesh: screws, bedding
/// and contact, ties between bodies.
struct StiffnessAdditions {
  /// A spring between, or at, nodes: stiffness * v v^t, with v given at a few nodes.
  struct Spring {
    struct Share {
      int node;
      Eigen::Vector3d direction;  ///< [-]; the spring's length is the sum of direction . u
    };
    std::vector<Share> shares;
    double stiffness;  ///< [N/mm], not negative
  };
  /// A block K_ij and, unless i = j, its transpose at (j, i). The sum of all must be positive
  /// semi-definite.
  struct Block {
    int i, j;
    Eigen::Matrix3d stiffness;  ///< [N/mm]
  };
  std::vector<Spring> springs;
  std::vector<Block> blocks;

  bool empty() const { return springs.empty() && blocks.empty(); }
};

/// How far a spring's ends are apart along it.
/// @param u  unknowns [mm].  @return sum of direction . u [mm].
double along(const std::vector<StiffnessAdditions::Spring::Share>& shares,
             const Eigen::VectorXd& u);

/// What additions resist a displacement with, K_added u.
/// @param u  unknowns [mm].  @return unknowns [N].
Eigen::VectorXd added_forces(const StiffnessAdditions& additions, const Eigen::VectorXd& u);

}  // namespace crossgrain
