// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/hole_walls.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <iterator>

#include "mesh/geometry/surface_rays.h"

namespace crossgrain {
namespace {

// What a machine or a printer takes for one hole [mm].
constexpr double same_length = 0.01;
constexpr double same_direction = 1e-3;  // [rad]

Eigen::Vector3d towards_plus(const Eigen::Vector3d& axis) {
  Eigen::Index main = 0;
  axis.cwiseAbs().maxCoeff(&main);
  return axis[main] < 0.0 ? Eigen::Vector3d(-axis) : axis;
}

HoleWall wall_of(const CadFace& face) {
  const Eigen::Vector3d axis = towards_plus(face.axis);
  const bool turned = axis.dot(face.axis) < 0.0;
  return {face.body,
          {face.id},
          axis,
          face.origin,
          face.radius,
          turned ? -face.along_high : face.along_low,
          turned ? -face.along_low : face.along_high};
}

/// The extent of b measured from a's origin.
std::pair<double, double> extent_from(const HoleWall& a, const HoleWall& b) {
  const double shift = (b.origin - a.origin).dot(a.axis);
  return {b.low + shift, b.high + shift};
}

/// Whether the void between two pieces of a bore is walled in: a cross hole or a groove, not the
/// slot of a fork or the outside.
bool walled_in(const HoleWall& a, double from, double to, const SurfaceRays& rays) {
  constexpr int spokes = 24;
  constexpr double longest_gap = 4.0, share = 0.7;  // common practice, no source
  if (to - from > longest_gap * 2.0 * a.radius) {
    return false;
  }
  const Eigen::Vector3d x = a.axis.unitOrthogonal(), y = a.axis.cross(x);
  int hits = 0;
  for (int i = 0; i < spokes; ++i) {
    const double angle = 2.0 * M_PI * (i + 0.37) / spokes;
    const auto hit =
        rays.first_hit(a.at(0.5 * (from + to)), std::cos(angle) * x + std::sin(angle) * y);
    hits += hit && hit->from_outside;
  }
  return hits >= share * spokes;
}

bool same_bore(const HoleWall& a, const HoleWall& b, const SurfaceRays& rays) {
  if (std::abs(a.radius - b.radius) > same_length || !coaxial(a.axis, a.origin, b.axis, b.origin)) {
    return false;
  }
  const auto [low, high] = extent_from(a, b);
  const double gap_low = std::min(a.high, high), gap_high = std::max(a.low, low);
  return gap_high - gap_low < same_length || walled_in(a, gap_low, gap_high, rays);
}

void absorb(HoleWall& a, const HoleWall& b) {
  const auto [low, high] = extent_from(a, b);
  a.low = std::min(a.low, low);
  a.high = std::max(a.high, high);
  a.faces.insert(a.faces.end(), b.faces.begin(), b.faces.end());
  std::sort(a.faces.begin(), a.faces.end());
}

/// Length of the union of the faces' extents.
double walled_length(const HoleWall& wall, const Geometry& geometry) {
  std::vector<std::pair<double, double>> extents;
  for (const FaceId face : wall.faces) {
    extents.push_back(extent_from(wall, wall_of(geometry.face(face))));
  }
  std::sort(extents.begin(), extents.end());
  double length = 0.0, reached = extents.front().first;
  for (const auto& [low, high] : extents) {
    length += std::max(0.0, high - std::max(low, reached));
    reached = std::max(reached, high);
  }
  return length;
}

bool goes_round(const HoleWall& wall, const Geometry& geometry) {
  constexpr double share = 0.85;  // halves with slanting ends count a little short
  double turned_length = 0.0;
  for (const FaceId id : wall.faces) {
    const CadFace& face = geometry.face(id);
    turned_length += face.turn * (face.along_high - face.along_low);
  }
  return turned_length > share * 2.0 * M_PI * walled_length(wall, geometry);
}

/// Add a piece to the walls; it may join two that did not meet before.
void add_piece(HoleWall piece, std::vector<HoleWall>& walls, const SurfaceRays& rays) {
  for (std::size_t i = 0; i < walls.size();) {
    if (same_bore(walls[i], piece, rays)) {
      absorb(piece, walls[i]);
      walls.erase(walls.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;
    } else {
      ++i;
    }
  }
  walls.push_back(std::move(piece));
}

std::vector<HoleWall> walls_of(const Body& body, const Geometry& geometry) {
  // A screw in the hole is none of this body's business.
  const SurfaceRays rays(geometry, body.id);
  std::vector<HoleWall> pieces, walls;
  for (const FaceId id : body.faces) {
    const CadFace& face = geometry.face(id);
    if (face.kind == SurfaceKind::cylinder && face.hollow) {
      add_piece(wall_of(face), pieces, rays);
    }
  }
  std::copy_if(pieces.begin(), pieces.end(), std::back_inserter(walls), [&](const HoleWall& wall) {
    return goes_round(wall, geometry) && !rays.body_around(wall.at(0.5 * (wall.low + wall.high)));
  });
  std::sort(walls.begin(), walls.end(),
            [](const HoleWall& a, const HoleWall& b) { return a.faces.front() < b.faces.front(); });
  return walls;
}

}  // namespace

bool coaxial(const Eigen::Vector3d& axis_a, const Eigen::Vector3d& origin_a,
             const Eigen::Vector3d& axis_b, const Eigen::Vector3d& origin_b) {
  const Eigen::Vector3d between = origin_b - origin_a;
  return axis_a.cross(axis_b).norm() < same_direction &&
         (between - between.dot(axis_a) * axis_a).norm() < same_length;
}

std::vector<HoleWall> find_hole_walls(const Geometry& geometry) {
  std::vector<HoleWall> walls;
  for (const Body& body : geometry.bodies) {
    if (body.modelled) {
      const std::vector<HoleWall> found = walls_of(body, geometry);
      walls.insert(walls.end(), found.begin(), found.end());
    }
  }
  return walls;
}

}  // namespace crossgrain
