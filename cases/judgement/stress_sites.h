// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/failure/failure.h"
#include "mesh/geometry/geometry.h"
#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// How a site's stress counts by a mode.
enum class SiteGroup {
  judged,
  near_artificial,  ///< of the model's own supports and point-like loads: reported apart
  under_heads       ///< crushed by a screw's head: reported apart, the bearing pressure is judged
};

/// Where stress is judged, and what a reader is told about each place. The same for every material
/// field on one mesh.
struct StressSites {
  std::vector<StressPoint> points;
  Eigen::Matrix3Xd positions;               ///< [mm]
  std::vector<std::optional<FaceId>> face;  ///< a CAD face that the point lies on
  std::vector<char> near_artificial;        ///< 1: its stress is reported apart
  std::vector<char> under_head;             ///< 1: under a screw's head, a bead beside it
  std::vector<std::string> body_names;      ///< by body index
  std::vector<double> bead_width_of_body;   ///< [mm]: what stress is judged over
  BeadFit fit;                              ///< of the points

  /// How the force of a head spreads over its seat is assumed, and a peak at its rim yields in a
  /// real part: that it crushes is judged by its mean pressure, which is greatest at the seat; that
  /// it tears is not left out.
  SiteGroup group_of(Eigen::Index site, FailureMode mode) const;
};

/// Where a screw's head or washer presses.
struct HeadSeat {
  BodyId body;
  Eigen::Vector3d middle;  ///< on the seat [mm]
  Eigen::Vector3d axis;    ///< unit, from the body to the head
  double radius;           ///< of the head [mm]
};

/// Where stress is not real.
struct ArtificialPlaces {
  std::vector<FaceId> faces;  ///< of rigid supports and point-like loads
  std::vector<EdgeId> edges;  ///< of supports that slide and end in the middle of a surface
  std::vector<HeadSeat> heads;
};

/// @param bead_width_of_body   by body [mm]: stress is judged over it, and points nearer than this
///                             to an artificial place of their body are reported apart.
StressSites stress_sites(const TetrahedronMesh& mesh, const Geometry& geometry,
                         const ArtificialPlaces& artificial,
                         const std::vector<double>& bead_width_of_body);

/// Those that are chosen, in that order; without a fit.
StressSites chosen_sites(const StressSites& all, const std::vector<Eigen::Index>& chosen);

/// Which are of some bodies.
std::vector<Eigen::Index> sites_of(const StressSites& sites, const std::vector<BodyId>& bodies);

}  // namespace crossgrain
