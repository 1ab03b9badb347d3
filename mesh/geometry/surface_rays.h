// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Where a ray first meets the surface.
struct RayHit {
  double distance;          ///< [mm]
  Eigen::Vector3d outward;  ///< unit normal there
  FaceId face;
  bool from_outside;  ///< against the outward normal: the ray came through no material
};

/// Rays against the surface triangles of the modelled bodies, or of one of them, and distances to
/// them, by a tree of boxes. A ray may slip between two triangles: take several.
class SurfaceRays {
 public:
  explicit SurfaceRays(const Geometry& geometry, std::optional<BodyId> only = std::nullopt);
  ~SurfaceRays();
  SurfaceRays(SurfaceRays&&) noexcept;

  /// @param direction  unit.
  /// @param least      hits nearer than this are passed over [mm].
  std::optional<RayHit> first_hit(const Eigen::Vector3d& origin, const Eigen::Vector3d& direction,
                                  double least = 0.0) const;

  /// Where a ray that starts on the surface first leaves the material. Crossings into it are passed
  /// over, for a point of the CAD surface may lie just outside the flat triangles.
  /// @param direction  unit.
  /// @param beyond     exits no nearer than this do not count [mm].
  std::optional<RayHit> first_exit(const Eigen::Vector3d& origin, const Eigen::Vector3d& direction,
                                   double beyond = std::numeric_limits<double>::infinity()) const;

  /// Distance from a point to the surface [mm], or `beyond` if it is larger.
  double distance(const Eigen::Vector3d& point, double beyond) const;

  /// The body in whose material a point lies, by its solid angle: not on the surface itself.
  std::optional<BodyId> body_around(const Eigen::Vector3d& point) const;

 private:
  struct Tree;
  std::unique_ptr<Tree> tree_;
};

/// Unit vectors spread evenly over the sphere; none along an axis or a diagonal.
std::vector<Eigen::Vector3d> even_directions(int count);

/// The outward normal of the face's triangle whose middle is nearest to a point.
Eigen::Vector3d normal_near(const Geometry& geometry, FaceId face, const Eigen::Vector3d& point);

}  // namespace crossgrain
