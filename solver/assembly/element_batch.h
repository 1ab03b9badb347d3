// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/elements/element_at_points.h"
#include "solver/elements/point_material.h"
#include "solver/elements/quadrature.h"
#include "solver/kernels/kernels.h"

namespace crossgrain {

/// How an element's stiffness is integrated.
enum class ElementShape {
  straight,        ///< mid-side nodes in the middle, one material frame: closed form
  curved,          ///< one material frame: geometry by quadrature, then the material
  point_by_point,  ///< a frame at every point
};

/// The stiffness of a few elements side by side. One per thread.
class ElementBatch {
 public:
  ElementBatch(const TetrahedronMesh& mesh, const MaterialField& field,
               const TetrahedronRule& rule);

  void take(int tetrahedron);
  bool full() const { return count_ == batch; }
  void clear() { count_ = 0; }

  /// All that were taken.
  /// @throws std::invalid_argument for an inverted element.
  void integrate(ElementShape shape);

  /// The block of a pair of nodes (`pair_number`) of the element taken as number `lane`.
  Eigen::Matrix3d block(int pair, int lane) const {
    Eigen::Matrix3d value;
    for (int s = 0; s < 9; ++s) value.data()[s] = stiffness_(lane, 9 * pair + s);
    return value;
  }
  /// The block of corners m, n if mid-side nodes follow them.
  Eigen::Matrix3d corner_block(int m, int n, int lane, ElementShape shape) const;

 private:
  void integrate_straight();
  void integrate_curved();
  void integrate_points(int lane);
  void refuse_inverted(int lane);

  const TetrahedronMesh& mesh_;
  const MaterialField& field_;
  const TetrahedronRule& rule_;
  PointMaterial material_;
  ElementAtPoints element_;
  Eigen::Matrix<double, 30, Eigen::Dynamic> local_gradients_;  ///< one column a point
  int count_ = 0;
  int tetrahedra_[batch];
  using Lanes = Eigen::Matrix<double, batch, Eigen::Dynamic>;
  Lanes nodes_, elastic_, stiffness_, work_;
};

}  // namespace crossgrain
