// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/aggregation/block_table.h"
#include "solver/aggregation/node_aggregates.h"
#include "solver/blocks/free_directions.h"

namespace crossgrain {

/// Points of one level of a multigrid, each with the motion that its unknowns make of a rigid one:
/// translation of the point [mm], then rotation about it [rad].
struct RigidPoints {
  int nodes_per_point;        ///< 1: three unknowns, 2: six
  Eigen::Matrix3Xd position;  ///< 3 x points [mm]
  Eigen::MatrixXd motion;     ///< (3 nodes) x 6

  Eigen::Index count() const { return position.cols(); }
  /// What a point's unknowns make of a rigid motion about somewhere else, 3 or 6 x 6.
  Eigen::Matrix<double, Eigen::Dynamic, 6> motion_about(const Eigen::Vector3d& centre,
                                                        Eigen::Index point) const;
};

/// Corners, which move as far as supports leave them free.
RigidPoints rigid_corners(const Eigen::Matrix3Xd& positions, const FreeDirections& free);

/// The next level's points and how these move with them.
struct Coarsening {
  RigidPoints points;
  BlockTable prolongation;
};

/// Every aggregate becomes a point in its middle, whose six unknowns are orthonormal motions of it
/// and span its rigid ones. Where there are fewer than six, as in an aggregate of two points, the
/// last unknowns move nothing.
Coarsening coarsened(const RigidPoints& points, const NodeAggregates& aggregates);

}  // namespace crossgrain
