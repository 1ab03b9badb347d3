// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>

namespace crossgrain {

/// Nodal forces that depend on the build direction n, if at all, as free expansion does: as a sum
/// of products of two components of n (for a solid that is isotropic in its layers). Other parts
/// may come on top that count what the caller says.
class DirectionalLoad {
 public:
  /// The same for every direction. @param forces  unknowns [N].
  explicit DirectionalLoad(const Eigen::VectorXd& forces) : parts_(forces) {}
  /// @param forces_along  nodal forces for a build direction [N]; called for six of them.
  explicit DirectionalLoad(
      const std::function<Eigen::VectorXd(const Eigen::Vector3d&)>& forces_along);

  /// Parts that count what is told. @param parts  unknowns x n.
  void add_told(const Eigen::MatrixXd& parts);
  Eigen::Index told() const { return told_; }

  /// What each part counts along a build direction of any length but zero.
  /// @param told  what those count that came on top; as many as these.
  Eigen::VectorXd weights(const Eigen::Vector3d& direction, const Eigen::VectorXd& told = {}) const;
  /// Unknowns x n, those on top last: the forces are parts times weights [N].
  const Eigen::MatrixXd& parts() const { return parts_; }

 private:
  Eigen::MatrixXd parts_;
  Eigen::Index told_ = 0;  ///< of the parts
};

}  // namespace crossgrain
