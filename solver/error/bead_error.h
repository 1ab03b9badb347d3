// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// A field's recovered less its own stress at the corners of elements: by so much it may be off.
class StressDoubt {
 public:
  /// Keeps all by reference.
  /// @param recovered  6 x points [MPa].
  StressDoubt(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
              const ElementStress& own, Eigen::Matrix<double, 6, Eigen::Dynamic> recovered)
      : mesh_(mesh), points_(points), own_(own), recovered_(std::move(recovered)) {}

  /// At an element's four corners [MPa].
  Eigen::Matrix<double, 6, 4> of(int tetrahedron) const;

 private:
  const TetrahedronMesh& mesh_;
  const std::vector<StressPoint>& points_;
  const ElementStress& own_;
  Eigen::Matrix<double, 6, Eigen::Dynamic> recovered_;
};

/// @param own  fields of one mesh, kept by reference.
std::vector<StressDoubt> stress_doubts(const TetrahedronMesh& mesh,
                                       const std::vector<StressPoint>& points,
                                       const std::vector<ElementStress>& own);

/// How far the mesh may be off in the stress that a bead feels at one point, by what stands round
/// the point alone. With the signs of the elements' parts it would be too little: on benchmarks two
/// of ten errors were larger than that.
class BeadError {
 public:
  explicit BeadError(std::span<const ElementShare> shares)
      : shares_(shares), parts_(shares.size(), Vector6d::Zero()) {}

  void add(double count, const StressDoubt& doubt);
  /// Of a linear functional of the stress: the elements' parts without their signs.
  double along(const Vector6d& direction) const;

 private:
  std::span<const ElementShare> shares_;
  std::vector<Vector6d> parts_;  ///< of each share [MPa]
};

}  // namespace crossgrain
