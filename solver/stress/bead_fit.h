// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "solver/stress/element_stress.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// What an element's four corner values count for in a sum over elements.
struct ElementShare {
  int tetrahedron;
  Eigen::Vector4d weights;
};

/// Stress as a bead feels it: each component's linear least-squares fit over the ball of one bead
/// width about a point, taken at the point. Of the body the ball holds what is connected to the
/// point inside it, so that nothing leaks across a slit. Membrane and bending stress come through
/// as they are; at a sharp inner corner, where the stress itself has no limit, the fit has one.
/// A linear function of the stress in elements: worked out once for a mesh, good for all loads and
/// print directions.
class BeadFit {
 public:
  BeadFit() = default;  ///< of no points
  /// @param bead_width_of_body  the ball's diameter [mm], by body index.
  BeadFit(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
          const std::vector<double>& bead_width_of_body);

  /// @return 6 x points [MPa], global axes; NaN where elements are so tangled that the ball holds
  /// nothing.
  Eigen::Matrix<double, 6, Eigen::Dynamic> of(const ElementStress& stress) const;

  /// The elements in and round a point's ball: their sum is the fit.
  std::span<const ElementShare> shares(Eigen::Index point) const {
    return {shares_.data() + first_[point], shares_.data() + first_[point + 1]};
  }

 private:
  std::vector<std::int64_t> first_{0};  ///< of each point, into shares; and one past the last
  std::vector<ElementShare> shares_;
};

}  // namespace crossgrain
