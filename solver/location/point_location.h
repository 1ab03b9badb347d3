// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A place in the mesh.
struct MeshLocation {
  int tetrahedron;
  Eigen::Vector3d local;  ///< local coordinates there
  double distance;        ///< from the point asked for; 0 if that lies inside [mm]
};

/// Finds the curved tetrahedron in which a point lies.
class PointLocator {
 public:
  /// @param mesh  kept by reference.
  explicit PointLocator(const TetrahedronMesh& mesh);
  ~PointLocator();
  PointLocator(const PointLocator&) = delete;
  PointLocator& operator=(const PointLocator&) = delete;

  /// @param tolerance  how far outside the mesh a point may lie [mm]: its nearest place in an
  /// element is taken then. May be infinite.
  /// @param body  in whose elements to look; without it, in all.
  /// @return nothing if the point lies further outside.
  std::optional<MeshLocation> find(const Eigen::Vector3d& point, double tolerance,
                                   std::optional<BodyId> body = std::nullopt) const;

 private:
  struct Tree;
  const TetrahedronMesh& mesh_;
  double mesh_size_;  ///< largest coordinate [mm]
  std::unique_ptr<Tree> tree_;
};

/// Displacement [mm] at a place, by the shape functions.
Eigen::Vector3d displacement_at(const TetrahedronMesh& mesh, const Eigen::VectorXd& displacement,
                                const MeshLocation& location);

}  // namespace crossgrain
