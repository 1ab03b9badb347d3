// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "mesh/geometry.h"

namespace crossgrain {

/// Where a ray first meets the surface.
struct RayHit {
  double distance;  ///< [mm]
  FaceId face;
  bool from_outside;  ///< against the outward normal: the ray came through no material
};

/// Rays against the surface triangles of the modelled bodies, or of one of them. A ray may slip
/// between two triangles: take several.
class SurfaceRays {
 public:
  explicit SurfaceRays(const Geometry& geometry, std::optional<BodyId> only = std::nullopt);

  /// @param direction  unit.
  /// @param least      hits nearer than this are passed over [mm].
  std::optional<RayHit> first_hit(const Eigen::Vector3d& origin, const Eigen::Vector3d& direction,
                                  double least = 0.0) const;

  /// The body in whose material a point lies, by its solid angle: not on the surface itself.
  std::optional<BodyId> body_around(const Eigen::Vector3d& point) const;

 private:
  struct Patch {
    FaceId face;
    BodyId body;
    Box box;
    Eigen::Index begin, end;  ///< of its triangles
  };
  const Geometry& geometry_;
  std::vector<Patch> patches_;
};

/// Unit vectors spread evenly over the sphere; none along an axis or a diagonal.
std::vector<Eigen::Vector3d> even_directions(int count);

/// The outward normal of the face's triangle whose middle is nearest to a point.
Eigen::Vector3d normal_near(const Geometry& geometry, FaceId face, const Eigen::Vector3d& point);

}  // namespace crossgrain
