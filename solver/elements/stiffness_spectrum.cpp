// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/stiffness_spectrum.h"

#include <Eigen/Eigenvalues>
#include <array>
#include <limits>
#include <set>

namespace crossgrain {
namespace {

constexpr std::size_t most_combinations = 200;
constexpr double infinity = std::numeric_limits<double>::infinity();

/// Old material and frame, new material and frame.
using Combination = std::array<int, 4>;

Matrix6d stiffness_of(const MaterialField& field, int material, int frame) {
  return rotate_stiffness(stiffness(field.materials[material].elastic), field.frames[frame]);
}

}  // namespace

double spectrum_ratio(const MaterialField& old_field, const MaterialField& new_field) {
  const auto points = std::max(old_field.frame_of_point.cols(), new_field.frame_of_point.cols());
  std::set<Combination> met;
  for (Eigen::Index t = 0; t < old_field.frame_of_point.rows(); ++t)
    for (Eigen::Index q = 0; q < points; ++q) {
      met.insert({old_field.material_of_tetrahedron[t], old_field.frame_number(t, q),
                  new_field.material_of_tetrahedron[t], new_field.frame_number(t, q)});
      if (met.size() > most_combinations) return infinity;
    }
  double least = infinity, greatest = 0.0;
  for (const auto& [old_material, old_frame, new_material, new_frame] : met) {
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(
        stiffness_of(new_field, new_material, new_frame),
        stiffness_of(old_field, old_material, old_frame), Eigen::EigenvaluesOnly);
    least = std::min(least, eigen.eigenvalues().minCoeff());
    greatest = std::max(greatest, eigen.eigenvalues().maxCoeff());
  }
  return least > 0.0 ? greatest / least : infinity;
}

}  // namespace crossgrain
