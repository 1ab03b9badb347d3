// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/aggregation/rigid_points.h"

#include <Eigen/Geometry>
#include <Eigen/QR>

namespace crossgrain {
namespace {

// Round-off leaves less of a motion that depends on others, bad luck more of one that does not.
constexpr double independent = 1e-8;

using Motions = Eigen::Matrix<double, Eigen::Dynamic, 6>;

std::vector<std::vector<int>> members(const NodeAggregates& aggregates) {
  std::vector<std::vector<int>> points(aggregates.count);
  for (int i = 0; i < static_cast<int>(aggregates.of_point.size()); ++i)
    if (aggregates.of_point[i] >= 0) points[aggregates.of_point[i]].push_back(i);
  return points;
}

/// B = Q R, both six columns or rows wide; beyond B's rank zero.
struct Split {
  Motions Q;
  Eigen::Matrix<double, 6, 6> R;
};

Split orthonormal(Motions B) {
  // Rotations smaller than translations: pivoting then takes all translations first.
  const double translation = B.leftCols<3>().colwise().norm().maxCoeff();
  const double rotation = B.rightCols<3>().colwise().norm().maxCoeff();
  const double scale = translation > 0.0 && rotation > 0.0 ? 0.5 * translation / rotation : 1.0;
  B.rightCols<3>() *= scale;
  Eigen::ColPivHouseholderQR<Motions> qr(B);
  qr.setThreshold(independent);
  const auto rank = qr.rank();
  Split split{Motions::Zero(B.rows(), 6), Eigen::Matrix<double, 6, 6>::Zero()};
  split.Q.leftCols(rank) = qr.householderQ() * Eigen::MatrixXd::Identity(B.rows(), rank);
  split.R.topRows(rank) = split.Q.leftCols(rank).transpose() * B;
  split.R.rightCols<3>() /= scale;
  return split;
}

}  // namespace

Motions RigidPoints::motion_about(const Eigen::Vector3d& centre, Eigen::Index point) const {
  Eigen::Matrix<double, 6, 6> moved_centre = Eigen::Matrix<double, 6, 6>::Identity();
  for (int axis = 0; axis < 3; ++axis)
    moved_centre.block<3, 1>(0, 3 + axis) =
        Eigen::Vector3d::Unit(axis).cross(position.col(point) - centre);
  return motion.middleRows(3 * nodes_per_point * point, 3 * nodes_per_point) * moved_centre;
}

RigidPoints rigid_corners(const Eigen::Matrix3Xd& positions, const FreeDirections& free) {
  RigidPoints points{1, positions, Eigen::MatrixXd::Zero(3 * positions.cols(), 6)};
  for (Eigen::Index i = 0; i < positions.cols(); ++i)
    points.motion.block<3, 3>(3 * i, 0).setIdentity();
  for (const auto& node : free.held()) points.motion.block<3, 3>(3 * node.node, 0) = node.free;
  return points;
}

Coarsening coarsened(const RigidPoints& points, const NodeAggregates& aggregates) {
  const int rows_per_point = 3 * points.nodes_per_point;
  Coarsening result{
      {2, Eigen::Matrix3Xd(3, aggregates.count), Eigen::MatrixXd(6 * aggregates.count, 6)}, {}};
  auto& P = result.prolongation;
  P.columns = 2 * aggregates.count;
  for (const int aggregate : aggregates.of_point)
    for (int node = 0; node < points.nodes_per_point; ++node)
      P.row_start.push_back(P.row_start.back() + (aggregate < 0 ? 0 : 2));
  P.column.resize(P.row_start.back());
  P.block.resize(P.row_start.back());

  const auto members_of = members(aggregates);
  for (int a = 0; a < aggregates.count; ++a) {
    const auto& inside = members_of[a];
    Eigen::Vector3d centre = Eigen::Vector3d::Zero();
    for (const int i : inside) centre += points.position.col(i);
    centre /= static_cast<double>(inside.size());
    Motions B(rows_per_point * std::ssize(inside), 6);
    for (std::size_t k = 0; k < inside.size(); ++k)
      B.middleRows(rows_per_point * k, rows_per_point) = points.motion_about(centre, inside[k]);
    const Split split = orthonormal(std::move(B));
    result.points.position.col(a) = centre;
    result.points.motion.middleRows<6>(6 * a) = split.R;
    for (std::size_t k = 0; k < inside.size(); ++k)
      for (int node = 0; node < points.nodes_per_point; ++node)
        for (int half = 0; half < 2; ++half) {
          const auto place = P.row_start[points.nodes_per_point * inside[k] + node] + half;
          P.column[place] = 2 * a + half;
          P.block[place] = split.Q.block<3, 3>(rows_per_point * k + 3 * node, 3 * half);
        }
  }
  return result;
}

}  // namespace crossgrain
