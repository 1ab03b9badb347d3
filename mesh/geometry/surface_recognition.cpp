// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/surface_recognition.h"

#include <Eigen/Dense>
#include <cmath>

namespace crossgrain {
namespace {

// Normals are compared by what their error does to a point: an arc's length away it must stay
// within the tolerance. This slack is for the writer's rounding on top.
constexpr double normal_slack = 1e-3;

/// Directions in order of how little a set of unit vectors spreads along them.
struct Spread {
  Eigen::Vector3d least;   ///< direction
  double least_deviation;  ///< largest departure along it
};

Spread spread_of(const Eigen::Matrix3Xd& vectors) {
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(vectors * vectors.transpose());
  const Eigen::Vector3d least = eigen.eigenvectors().col(0);
  return {least, (least.transpose() * vectors).cwiseAbs().maxCoeff()};
}

/// Solve points = centre + s normals for the centre and s, s being a radius with a sign.
Eigen::Vector4d centre_and_radius(const Eigen::Matrix3Xd& points, const Eigen::Matrix3Xd& normals) {
  const Eigen::Index n = points.cols();
  Eigen::MatrixXd matrix(3 * n, 4);
  Eigen::VectorXd right(3 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    matrix.block<3, 3>(3 * i, 0).setIdentity();
    matrix.block<3, 1>(3 * i, 3) = normals.col(i);
    right.segment<3>(3 * i) = points.col(i);
  }
  return matrix.colPivHouseholderQr().solve(right);
}

double misfit(const Eigen::Matrix3Xd& points, const Eigen::Matrix3Xd& normals,
              const Eigen::Vector4d& fit) {
  const Eigen::Matrix3Xd residual =
      (points - fit[3] * normals).colwise() - Eigen::Vector3d(fit.head<3>());
  return residual.colwise().norm().maxCoeff();
}

std::optional<ElementarySurface> as_plane(const SampledSurface& s, double tolerance) {
  const Eigen::Vector3d normal = s.normals.rowwise().mean().normalized();
  const Eigen::Vector3d centre = s.points.rowwise().mean();
  const double off = (normal.transpose() * (s.points.colwise() - centre)).cwiseAbs().maxCoeff();
  const double tilt = (s.normals.colwise() - normal).colwise().norm().maxCoeff();
  if (!(off < tolerance && tilt < normal_slack)) {
    return std::nullopt;
  }
  return ElementarySurface{SurfaceKind::plane, normal, centre};
}

std::optional<ElementarySurface> as_sphere(const SampledSurface& s, double tolerance) {
  const Eigen::Vector4d fit = centre_and_radius(s.points, s.normals);
  if (!(misfit(s.points, s.normals, fit) < tolerance)) {
    return std::nullopt;
  }
  return ElementarySurface{SurfaceKind::sphere, Eigen::Vector3d::Zero(), fit.head<3>(),
                           std::abs(fit[3])};
}

std::optional<ElementarySurface> as_cylinder(const SampledSurface& s, double tolerance) {
  const Spread spread = spread_of(s.normals);
  if (!(spread.least_deviation < normal_slack)) {
    return std::nullopt;
  }
  const Eigen::Vector3d axis = spread.least;
  const Eigen::Matrix3d flatten = Eigen::Matrix3d::Identity() - axis * axis.transpose();
  const Eigen::Matrix3Xd points = flatten * s.points, normals = flatten * s.normals;
  const Eigen::Vector4d fit = centre_and_radius(points, normals);
  if (!(misfit(points, normals, fit) < tolerance)) {
    return std::nullopt;
  }
  const Eigen::Vector3d middle = s.points.rowwise().mean();
  return ElementarySurface{SurfaceKind::cylinder, axis, fit.head<3>() + axis * axis.dot(middle),
                           std::abs(fit[3])};
}

std::optional<ElementarySurface> as_cone(const SampledSurface& s, double tolerance) {
  // All tangent planes meet in the apex, and all normals stand at one angle to the axis.
  const Eigen::Vector3d mean = s.normals.rowwise().mean();
  const Spread spread = spread_of(s.normals.colwise() - mean);
  if (!(spread.least_deviation < normal_slack)) {
    return std::nullopt;
  }
  const Eigen::VectorXd reach = s.normals.cwiseProduct(s.points).colwise().sum().transpose();
  const auto decomposed = s.normals.transpose().colPivHouseholderQr();
  const Eigen::Vector3d apex = decomposed.solve(reach);
  const double off = (s.normals.transpose() * apex - reach).cwiseAbs().maxCoeff();
  const Eigen::Vector3d middle = s.points.rowwise().mean() - apex;
  const Eigen::Vector3d axis =
      middle.dot(spread.least) < 0.0 ? Eigen::Vector3d(-spread.least) : spread.least;
  const double half_angle = std::asin(std::min(1.0, std::abs(mean.dot(axis))));
  if (decomposed.rank() < 3 || !(off < tolerance) || !(half_angle > normal_slack)) {
    return std::nullopt;
  }
  const double height = middle.dot(axis);
  return ElementarySurface{SurfaceKind::cone, axis, apex + height * axis,
                           height * std::tan(half_angle), half_angle};
}

}  // namespace

std::optional<ElementarySurface> recognise(const SampledSurface& sampled, double tolerance) {
  for (const auto attempt : {as_plane, as_cylinder, as_sphere, as_cone}) {
    if (auto found = attempt(sampled, tolerance)) {
      return found;
    }
  }
  return std::nullopt;
}

}  // namespace crossgrain
