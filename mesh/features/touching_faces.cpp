// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/touching_faces.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <map>

#include "mesh/geometry/flat_triangle.h"
#include "mesh/geometry/surface_rays.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

constexpr double least_share = 0.01;   // of the smaller face
constexpr double most_slanted = -0.9;  // cosine between normals, -1 where faces are parallel

Eigen::AlignedBox3d box_of(const FlatTriangle& t) {
  return Eigen::AlignedBox3d(t.a.cwiseMin(t.b).cwiseMin(t.c), t.a.cwiseMax(t.b).cwiseMax(t.c));
}

/// Cut a triangle into pieces no longer than `size`, those outside the box left out.
template <class Visit>
void for_each_piece(const FlatTriangle& t, double size, const Eigen::AlignedBox3d& within,
                    const Visit& visit) {
  if (!box_of(t).intersects(within)) return;
  const double ab = (t.b - t.a).norm(), bc = (t.c - t.b).norm(), ca = (t.a - t.c).norm();
  const double longest = std::max({ab, bc, ca});
  if (!(longest > size)) return visit(t);
  const FlatTriangle turned = longest == ab   ? t
                              : longest == bc ? FlatTriangle{t.b, t.c, t.a}
                                              : FlatTriangle{t.c, t.a, t.b};
  const Vector3d middle = 0.5 * (turned.a + turned.b);
  for_each_piece({turned.a, middle, turned.c}, size, within, visit);
  for_each_piece({middle, turned.b, turned.c}, size, within, visit);
}

struct Sums {
  double area = 0.0;
  double moment = 0.0;  ///< of the distance [mm^3]
};
using Pairs = std::map<std::pair<FaceId, FaceId>, Sums>;

struct Search {
  const Geometry& geometry;
  double reach;
  /// Rays start so deep in their own body: chords lie in each other where curved faces touch [mm].
  double depth;
};

/// @param other  rays against the second body.
void add_pairs(const Search& search, const Body& body, const Body& second, const SurfaceRays& other,
               Pairs& pairs) {
  const auto diagonal = [](const Body& b) { return b.box.diagonal(); };
  const double size = 0.01 * std::min(diagonal(body), diagonal(second));
  const Vector3d grown = Vector3d::Constant(search.reach + search.depth);
  const Eigen::AlignedBox3d within(second.box.low - grown, second.box.high + grown);
  const SurfaceTriangles& surface = search.geometry.surface;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    if (search.geometry.face(face).body != body.id) continue;
    for_each_piece(flat_triangle(surface, t), size, within, [&](const FlatTriangle& piece) {
      const double area = 0.5 * piece.outward().norm();
      if (!(area > 0.0)) return;
      const Vector3d outward = piece.outward().normalized();
      const Vector3d from = (piece.a + piece.b + piece.c) / 3.0 - search.depth * outward;
      const auto hit = other.first_hit(from, outward);
      if (!hit || hit->distance > search.depth + search.reach) return;
      if (hit->outward.dot(outward) > most_slanted) return;
      Sums& sums = pairs[{face, hit->face}];
      sums.area += area;
      sums.moment += area * (hit->distance - search.depth);
    });
  }
}

}  // namespace

std::vector<TouchingFaces> find_touching_faces(const Geometry& geometry, double reach) {
  const Search search{geometry, reach, std::max(0.2, 1e-3 * geometry.box.diagonal())};
  Pairs pairs;
  for (const Body& second : geometry.bodies) {
    if (!second.modelled || number(second.id) == 1) continue;
    const SurfaceRays other(geometry, second.id);
    for (const Body& body : geometry.bodies)
      if (body.modelled && number(body.id) < number(second.id))
        add_pairs(search, body, second, other, pairs);
  }

  std::vector<TouchingFaces> touching;
  for (const auto& [faces, sums] : pairs) {
    const auto& [first, second] = faces;
    const double smaller = std::min(geometry.face(first).area, geometry.face(second).area);
    if (sums.area >= least_share * smaller)
      touching.push_back({first, second, sums.area, sums.moment / sums.area});
  }
  return touching;
}

}  // namespace crossgrain
