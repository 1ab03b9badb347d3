// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// Where stress is judged, and what a reader is told about each place. The same for every material
/// field on one mesh.
struct StressSites {
  std::vector<StressPoint> points;
  Eigen::Matrix3Xd positions;               ///< [mm]
  std::vector<std::optional<FaceId>> face;  ///< a CAD face that the point lies on
  std::vector<char> near_artificial;        ///< 1: its stress is reported apart
  std::vector<std::string> body_names;      ///< by body index
  std::vector<double> bead_width_of_body;   ///< [mm]: what stress is judged over
  BeadFit fit;                              ///< of the points
};

/// Where stress is not real.
struct ArtificialPlaces {
  std::vector<FaceId> faces;  ///< of rigid supports and point-like loads
  std::vector<EdgeId> edges;  ///< of supports that slide and end in the middle of a surface
};

/// @param bead_width_of_body   by body [mm]: stress is judged over it, and points nearer than this
///                             to an artificial place of their body are reported apart.
StressSites stress_sites(const TetrahedronMesh& mesh, const Geometry& geometry,
                         const ArtificialPlaces& artificial,
                         const std::vector<double>& bead_width_of_body);

}  // namespace crossgrain
