// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <limits>
#include <vector>

#include "mesh/geometry/ids.h"
#include "mesh/tetrahedra/mesh_options.h"
#include "mesh/tetrahedra/remedies.h"

namespace crossgrain {

/// A point of a body's surface and what is seen there.
struct SurfaceSample {
  Eigen::Vector3d point;   ///< [mm]
  Eigen::Vector3d inward;  ///< unit, into the material
  BodyId body;
  FaceId face;
  double bend_radius = std::numeric_limits<double>::infinity();  ///< the smaller one [mm]
  double wall = std::numeric_limits<double>::infinity();  ///< infinite if there is none here [mm]
  bool beside_rim = false;  ///< the wall ends near here, at a narrow face round it

  Eigen::Vector3d middle_of_wall() const { return point + 0.5 * wall * inward; }
};

/// Edges along a wall that has points between its layers, in layers' thickness. With a sheet of
/// points between the layers, spaced like the edges, no empty ball reaches through while the edge
/// is under 0.866 * 2 layers: the Delaunay property then forbids elements across.
inline constexpr double edge_per_layer = 1.7;

/// Edges so short (in layers' thickness) that the mesher puts enough elements between the wall's
/// sides by itself. Measured on tubes.
inline constexpr double edge_per_layer_unaided = 0.85;

/// Edge lengths as they are asked for.
struct SizeRules {
  double greatest;  ///< [mm]
  double least;     ///< [mm]
  double elements_per_turn;
  int layers;
  double refinement;   ///< divides every size [-]
  bool points_inside;  ///< whether walls get points between their layers

  /// Along a wall, as a share of the wall: points in the middle keep elements from reaching across.
  double along_wall() const;
  /// The edge length wanted at a place [mm], refinement included.
  double size_at(const SurfaceSample& sample) const;
  /// The edge length by which a wall gets its layers without points inside [mm], refinement
  /// included.
  double size_unaided(double wall) const;
  /// A wall thicker than this asks for nothing [mm].
  double thickest_that_counts() const;
};

SizeRules size_rules(const MeshOptions& options, const Remedy& remedy, double diagonal);

/// What the samples ask for. Beside a rim no points can be placed inside the wall: there the edges
/// themselves must be short.
std::vector<SizedPoint> sized_points(const std::vector<SurfaceSample>& samples,
                                     const SizeRules& rules);

}  // namespace crossgrain
