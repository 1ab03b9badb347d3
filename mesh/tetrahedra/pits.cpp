// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/pits.h"

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace crossgrain {
namespace {

using Eigen::Vector3d;

// The wall must face the pit squarely [-]: below the inner edge of a box the ray runs askew to the
// outer edge and measures no wall.
constexpr double squarely = 0.9;

/// Where triangles meet.
struct Meeting {
  Vector3d point;
  BodyId body;
  Vector3d outward = Vector3d::Zero();  ///< weighted by the triangles' angles
  std::vector<Vector3d> spokes;         ///< unit, along the triangles' edges
};

using Key = std::pair<int, std::array<long, 3>>;

/// Points of the same place and body taken together.
std::map<Key, Meeting> meetings_of(const Geometry& geometry) {
  const double same = 1e-6 * geometry.box.diagonal();
  std::map<Key, Meeting> meetings;
  const SurfaceTriangles& surface = geometry.surface;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const BodyId body = geometry.face(surface.face_of_triangle[static_cast<std::size_t>(t)]).body;
    if (!geometry.body(body).modelled) continue;
    for (int i = 0; i < 3; ++i) {
      const auto corner = [&](int k) -> Vector3d {
        return surface.points.col(surface.triangles((i + k) % 3, t));
      };
      const Vector3d at = corner(0), u = (corner(1) - at).normalized(),
                     v = (corner(2) - at).normalized(), normal = u.cross(v);
      if (!(normal.norm() > 1e-6)) continue;
      const auto round = [&](int axis) { return std::lround(at[axis] / same); };
      Meeting& meeting = meetings[{number(body), {round(0), round(1), round(2)}}];
      meeting.point = at;
      meeting.body = body;
      meeting.outward += std::acos(std::clamp(u.dot(v), -1.0, 1.0)) * normal.normalized();
      meeting.spokes.push_back(u);
      meeting.spokes.push_back(v);
    }
  }
  return meetings;
}

/// Whether all of the surface round the point rises from it, but for a shallow hollow's slope.
bool is_pit(const Meeting& meeting, const Vector3d& outward) {
  for (const Vector3d& spoke : meeting.spokes)
    if (!(spoke.dot(outward) > -1e-3)) return false;
  double steepest = 0.0;
  for (const Vector3d& spoke : meeting.spokes) steepest = std::max(steepest, spoke.dot(outward));
  return steepest > 0.2;
}

}  // namespace

std::vector<SizedPoint> sized_pits(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                                   const SizeRules& rules) {
  std::vector<SizedPoint> points;
  for (const auto& [key, meeting] : meetings_of(geometry)) {
    const Vector3d outward = meeting.outward.normalized();
    if (!is_pit(meeting, outward)) continue;
    const auto exit =
        rays[index(meeting.body)].first_exit(meeting.point, -outward, rules.thickest_that_counts());
    if (!exit || exit->outward.dot(-outward) < squarely) continue;
    points.push_back(
        {meeting.point - 0.5 * exit->distance * outward, rules.size_unaided(exit->distance)});
  }
  return points;
}

}  // namespace crossgrain
