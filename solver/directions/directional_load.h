// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>

namespace crossgrain {

/// Nodal forces that depend on the build direction n, if at all, as free expansion does: as a sum
/// of products of two components of n (for a solid that is isotropic in its layers).
class DirectionalLoad {
 public:
  /// The same for every direction. @param forces  unknowns [N].
  explicit DirectionalLoad(const Eigen::VectorXd& forces) : parts_(forces) {}
  /// @param forces_along  nodal forces for a build direction [N]; called for six of them.
  explicit DirectionalLoad(
      const std::function<Eigen::VectorXd(const Eigen::Vector3d&)>& forces_along);

  /// What each part counts along a build direction of any length but zero.
  Eigen::VectorXd weights(const Eigen::Vector3d& direction) const;
  /// Unknowns x 1 or unknowns x 6 [N]: the forces are parts times weights.
  const Eigen::MatrixXd& parts() const { return parts_; }

 private:
  Eigen::MatrixXd parts_;
};

}  // namespace crossgrain
