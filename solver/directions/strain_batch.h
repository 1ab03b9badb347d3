// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/element_at_points.h"
#include "solver/kernels/kernels.h"

namespace crossgrain {

/// Strain of a few displacements in a few elements side by side. One per thread.
class StrainBatch {
 public:
  /// @param mesh, rule, displacements  kept by reference; unknowns x n [mm].
  StrainBatch(const TetrahedronMesh& mesh, const TetrahedronRule& rule,
              const Eigen::MatrixXd& displacements);

  void take(Eigen::Index tetrahedron);
  bool full() const { return count_ == batch; }
  int count() const { return count_; }
  void clear() { count_ = 0; }

  /// All that were taken.
  /// @throws std::invalid_argument for an inverted element.
  void integrate();

  /// Integrals of gradient times strain, of the element taken as number `lane`. Row: node; columns:
  /// component of its gradient, strain [mm^2].
  using Moments = Eigen::Matrix<double, 10, 18, Eigen::RowMajor>;
  Moments moments(int lane, Eigen::Index displacement) const;
  /// The linear least-squares fit of the strain, at the corners.
  Eigen::Matrix<double, 6, 4> at_corners(int lane, Eigen::Index displacement) const;
  double volume(int lane) const { return volume_[lane]; }  ///< [mm^3]

 private:
  using Lanes = Eigen::Matrix<double, batch, Eigen::Dynamic>;

  const TetrahedronMesh& mesh_;
  const TetrahedronRule& rule_;
  const Eigen::MatrixXd& displacements_;
  ElementAtPoints element_;
  Eigen::Matrix<double, 30, Eigen::Dynamic> local_gradients_;  ///< one column a point
  Eigen::Matrix4Xd fit_;                                       ///< likewise
  int count_ = 0;
  Eigen::Index tetrahedra_[batch];
  double volume_[batch];
  Lanes nodes_, u_, work_, moments_, at_corners_;
};

}  // namespace crossgrain
