// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/bar.h"

#include <Eigen/QR>
#include <cmath>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

const std::array<int, 3> cells{3, 2, 2};
const Point size(30.0, 12.0, 10.0);

Eigen::Matrix3d matrix_of(const Vector6d& v, double shear_share) {
  Eigen::Matrix3d m;
  m << v[0], shear_share * v[5], shear_share * v[4],  //
      shear_share * v[5], v[1], shear_share * v[3],   //
      shear_share * v[4], shear_share * v[3], v[2];
  return m;
}

/// Every node moves, mid-side ones apart from their corners, so that inner sides are curved; the
/// component across a face vanishes on it.
TetrahedronMesh distorted_block(double distortion) {
  const auto map = [&](const Point& unit) {
    const Point wave(std::sin(7.0 * unit.y() + 2.0 * unit.z() + 1.0),
                     std::sin(5.0 * unit.z() + 3.0 * unit.x() + 2.0),
                     std::sin(6.0 * unit.x() + 4.0 * unit.y() + 3.0));
    Point moved = unit;
    for (int axis = 0; axis < 3; ++axis) {
      const double fades = std::sin(std::numbers::pi * unit[axis]);
      moved[axis] += distortion / cells[axis] * fades * wave[axis];
    }
    return Point(moved.cwiseProduct(size));
  };
  return testing::block_mesh(cells, map);
}

Eigen::VectorXd tractions(const TetrahedronMesh& mesh, const Eigen::Matrix3d& stress) {
  Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
  for (int axis = 0; axis < 3; ++axis) {
    for (int high : {0, 1}) {
      const FaceId side{2 * axis + 1 + high};
      const Point traction = stress.col(axis) * (high ? 1.0 : -1.0);
      load += traction_load(mesh, {side}, [&](const Point&) { return traction; });
    }
  }
  return load;
}

StressedBlock free_block(const SolidMaterial& material, const Frame& frame, double distortion) {
  StressedBlock block;
  block.model.mesh = distorted_block(distortion);
  block.model.field = same_everywhere(block.model.mesh, material, frame);
  return block;
}

}  // namespace

StressedBlock stressed_block(const SolidMaterial& material, const Frame& frame,
                             const Vector6d& stress, double distortion) {
  StressedBlock block = free_block(material, frame, distortion);
  block.answer = solve(block.model, tractions(block.model.mesh, matrix_of(stress, 1.0)));
  return block;
}

StressedBlock warmed_block(const SolidMaterial& material, const Frame& frame, double kelvin,
                           double distortion) {
  StressedBlock block = free_block(material, frame, distortion);
  const TetrahedronMesh& mesh = block.model.mesh;
  const Eigen::VectorXd heat = Eigen::VectorXd::Constant(mesh.node_count(), kelvin);
  block.answer = solve(block.model, thermal_load(mesh, block.model.field, heat), heat);
  return block;
}

FittedStrain fitted_strain(const StressedBlock& block) {
  const TetrahedronMesh& mesh = block.model.mesh;
  Eigen::MatrixXd terms(mesh.node_count(), 4);
  terms << Eigen::VectorXd::Ones(mesh.node_count()), mesh.nodes.transpose();
  const Eigen::MatrixXd displacement =
      block.answer.displacement.reshaped(3, mesh.node_count()).transpose();
  const Eigen::MatrixXd fit = terms.colPivHouseholderQr().solve(displacement);
  // Row i, column j: change of displacement i along position j.
  const Eigen::Matrix3d gradient = fit.bottomRows<3>().transpose();
  const Eigen::Matrix3d twice = gradient + gradient.transpose();
  FittedStrain result;
  result.strain << gradient(0, 0), gradient(1, 1), gradient(2, 2), twice(1, 2), twice(0, 2),
      twice(0, 1);
  result.misfit =
      (displacement - terms * fit).cwiseAbs().maxCoeff() / displacement.cwiseAbs().maxCoeff();
  return result;
}

Vector6d tension(double stress) {
  Vector6d along_x = Vector6d::Zero();
  along_x[0] = stress;
  return along_x;
}

Vector6d strain_in_axes(const Vector6d& strain, const Frame& frame) {
  const Eigen::Matrix3d e = frame.transpose() * matrix_of(strain, 0.5) * frame;
  Vector6d result;
  result << e(0, 0), e(1, 1), e(2, 2), 2.0 * e(1, 2), 2.0 * e(0, 2), 2.0 * e(0, 1);
  return result;
}

}  // namespace crossgrain::verification
