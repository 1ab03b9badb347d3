// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/interface_blocks.h"
#include "solver/interface/joint.h"

namespace crossgrain {

/// The joint's forces, linear in the displacement.
struct JointTangent {
  std::vector<PointBranch> branches;       ///< of the points it was made for
  std::vector<Eigen::Matrix3d> stiffness;  ///< by point [N/mm^3]
  Eigen::Matrix3Xd traction;               ///< at no jump, by point [MPa]
  Eigen::VectorXd screw_stiffness;         ///< [N/mm]
  Eigen::VectorXd screw_force;             ///< at no elongation [N]
};

/// Jumps of all points and motions of all screws, linear in the displacement.
struct JointMotion {
  Eigen::Matrix3Xd jumps;   ///< 3 x points [mm]
  Eigen::Matrix3Xd screws;  ///< elongation and two lateral motions, 3 x screws [mm]
};

/// All points of a joint's pairs, one after another, and its screws, with what a state does to
/// them.
class JointSystem {
 public:
  /// @param mesh  kept by reference.
  JointSystem(const TetrahedronMesh& mesh, const Joint& joint);

  std::size_t size() const { return points_.size(); }
  const std::vector<InterfacePoint>& points() const { return points_; }
  const Joint& joint() const { return joint_; }
  const InterfaceLaw& law(std::size_t point) const { return joint_.pairs[pair_[point]].law; }
  std::size_t pair(std::size_t point) const { return pair_[point]; }

  /// Clearances and screws' commands of a state.
  void set_load(const JointLoad& load);

  JointMotion motion(const Eigen::VectorXd& u) const;
  double gap(std::size_t point, const Eigen::Vector3d& jump) const;
  /// Traction held from augmentations, 3 x points [MPa].
  Eigen::Matrix3Xd held;
  /// Hold what pairs held in a state.
  void hold(const std::vector<PairState>& pairs);

  PointResponse response(std::size_t point, const Eigen::Vector3d& jump) const;
  ScrewResponse screw_response(std::size_t screw, double elongation) const;

  /// @param closed  as if no point could open.
  JointTangent tangent(const JointMotion& motion, bool closed) const;
  StiffnessAdditions additions(const JointTangent& tangent) const;
  /// Nodal forces at no displacement [N].
  Eigen::VectorXd forces_at_rest(const JointTangent& tangent) const;
  /// What the joint does to the nodes [N].
  Eigen::VectorXd forces(const JointMotion& motion) const;

  /// Forces of the joint, and their difference from a tangent's, by node.
  struct Departure {
    double difference;  ///< norm over the nodes [N]
    double forces;      ///< the same of the joint's forces themselves [N]
  };
  Departure departure(const JointTangent& tangent, const JointMotion& motion) const;

  /// Work of the joint's forces at `at` done on `step` [N mm].
  double work(const JointMotion& at, const JointMotion& step) const;

 private:
  PointMotion point_motion(std::size_t point, const Eigen::Vector3d& jump) const;
  void add_screw(std::size_t screw, int direction, double force, Eigen::VectorXd& forces) const;

  const TetrahedronMesh& mesh_;
  const Joint& joint_;
  std::vector<InterfacePoint> points_;
  std::vector<std::size_t> pair_;
  InterfaceBlocks blocks_;
  std::vector<ScrewMotions> screw_motions_;
  Eigen::VectorXd clearance_;
  std::vector<ScrewCommand> commands_;
};

}  // namespace crossgrain
