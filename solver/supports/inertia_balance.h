// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/loads/loads.h"
#include "solver/supports/rigid_motions.h"

namespace crossgrain {

/// Balances loads against the rigid motions that the constraints leave free, and takes those
/// motions out of displacements.
class InertiaBalance {
 public:
  /// @param mesh  kept by reference.
  InertiaBalance(const TetrahedronMesh& mesh, const RigidMotions& rigid);

  /// Work out the inertia of each free motion.
  void set_material(const MaterialField& field);

  /// Add the inertia forces of the rigid acceleration that a load's unbalanced part causes.
  /// A load's size is the sum of its nodal forces' lengths; the unbalanced part is its resultant
  /// along the free motions, moments about the group's centre divided by the group's length.
  /// @return the largest unbalanced fraction over the groups.
  double balance(Eigen::Ref<Eigen::VectorXd> load) const;

  /// @param name  of the load, for the message.
  /// @return the largest unbalanced fraction over the groups.
  /// @throws std::invalid_argument printing the resultant if that is more than 0.1 %.
  double require_balanced(const Eigen::VectorXd& load, const std::string& name) const;

  /// Take out the mass-weighted free motions.
  void remove_rigid_motion(Eigen::Ref<Eigen::VectorXd> displacement) const;

 private:
  struct FreeGroup {
    Eigen::Vector3d centre;
    double length;
    std::string bodies;  ///< in words
    std::vector<int> nodes;
    Eigen::MatrixXd motions;  ///< 3 nodes x k
    Eigen::MatrixXd inertia;  ///< mass times motions, 3 nodes x k [tonne]
  };

  struct Imbalance {
    Eigen::VectorXd along_motions;  ///< resultant along the free motions
    double size;                    ///< of the load on the group [N]
    double fraction;
  };
  Imbalance imbalance(const FreeGroup& group, const Eigen::VectorXd& load) const;

  [[noreturn]] void refuse(const FreeGroup& group, const Eigen::VectorXd& load,
                           const Imbalance& rest, const std::string& name) const;

  const TetrahedronMesh& mesh_;
  std::vector<FreeGroup> groups_;
};

}  // namespace crossgrain
