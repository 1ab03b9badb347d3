// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_surface.h"

#include <array>
#include <set>

namespace crossgrain {
namespace {

constexpr int bits_of_places = 24;

/// Points of the surface, then of the edges' courses; their places x y z apart.
void add_points(const Geometry& geometry, std::vector<PackedArray>& arrays) {
  constexpr const char* names[] = {"points.x", "points.y", "points.z"};
  for (int axis = 0; axis < 3; ++axis) {
    std::vector<double> places;
    for (const double place : geometry.surface.points.row(axis)) places.push_back(place);
    for (const CadEdge& edge : geometry.edges) {
      for (const double place : edge.course.row(axis)) places.push_back(place);
    }
    const Rounded round = rounded(places, finite_range(places), bits_of_places);
    arrays.push_back(
        packed_array(names[axis], round.codes, bits_of_places / 8, round.low, round.step));
  }
}

/// Glued bodies share edges; one body stands twice, no body as 0.
std::array<std::uint32_t, 2> two_bodies_of(const Geometry& geometry, const CadEdge& edge) {
  std::set<std::uint32_t> bodies;
  for (const FaceId face : edge.faces)
    bodies.insert(static_cast<std::uint32_t>(number(geometry.face(face).body)));
  if (bodies.empty()) return {0, 0};
  return {*bodies.begin(), *bodies.rbegin()};
}

}  // namespace

std::vector<PackedArray> surface_arrays(const Geometry& geometry) {
  std::vector<PackedArray> arrays;
  add_points(geometry, arrays);
  std::vector<std::uint32_t> corners, faces, courses, bodies;
  for (const int corner : geometry.surface.triangles.reshaped())
    corners.push_back(static_cast<std::uint32_t>(corner));
  for (const FaceId face : geometry.surface.face_of_triangle)
    faces.push_back(static_cast<std::uint32_t>(number(face)));
  for (const CadEdge& edge : geometry.edges) {
    courses.push_back(static_cast<std::uint32_t>(edge.course.cols()));
    for (const std::uint32_t body : two_bodies_of(geometry, edge)) bodies.push_back(body);
  }
  arrays.push_back(packed_differences("triangles", corners));
  arrays.push_back(packed_differences("face_of_triangle", faces));
  arrays.push_back(packed_differences("points_of_edge", courses));
  arrays.push_back(packed_differences("bodies_of_edge", bodies));
  return arrays;
}

}  // namespace crossgrain
