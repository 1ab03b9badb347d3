// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <map>
#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A place where the wall holds fewer elements than asked for.
struct ThinPlace {
  FaceId face;
  Eigen::Vector3d position;  ///< [mm]
  double wall;               ///< [mm]
  int layers;
};

struct MeshReport {
  std::vector<std::string> remedies;  ///< rungs of the ladder that were climbed, in words
  int curved_elements_straightened = 0;
  double min_scaled_jacobian = 0.0;
  Eigen::Vector3d flattest_at = Eigen::Vector3d::Zero();  ///< the middle of that element [mm]
  double volume_mm3 = 0.0;                                ///< of the mesh
  double cad_volume_mm3 = 0.0;
  int layers_min = 0;        ///< 1st percentile by area
  double wall_min_mm = 0.0;  ///< 1st percentile by area
  std::vector<ThinPlace> thin_places;
  std::map<std::string, double> seconds;  ///< by stage, failed tries included
};

struct MeshedGeometry {
  Geometry geometry;
  TetrahedronMesh mesh;
  MeshReport report;
};

}  // namespace crossgrain
