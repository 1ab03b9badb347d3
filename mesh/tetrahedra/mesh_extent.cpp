// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_extent.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <random>

#include "mesh/geometry/flat_triangle.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

constexpr int chords = 4000;

/// The same numbers in every library: the standard leaves its distributions open.
class Random {
 public:
  double operator()() { return (static_cast<double>(engine_()) - 1.0) / 2147483646.0; }

 private:
  std::minstd_rand engine_{1};
};

/// @return unit; cosine law about the inward normal.
Vector3d direction_into(const Vector3d& inward, Random& random) {
  const double sine = std::sqrt(random()), angle = 2.0 * std::numbers::pi * random();
  const Vector3d across = inward.unitOrthogonal();
  return sine * std::cos(angle) * across + sine * std::sin(angle) * inward.cross(across) +
         std::sqrt(1.0 - sine * sine) * inward;
}

/// Of 1 / size^3, in steps of half an edge.
double integral_along(const Vector3d& start, const Vector3d& direction, double length,
                      const SizeField& sizes) {
  double sum = 0.0;
  for (double done = 0.0; done < length;) {
    const double step = std::min(0.5 * sizes.inside(start + done * direction), length - done);
    const double size = sizes.inside(start + (done + 0.5 * step) * direction);
    sum += step / (size * size * size);
    done += step;
  }
  return sum;
}

}  // namespace

SizedExtent extent_in_sizes(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                            const SizeField& sizes) {
  const SurfaceTriangles& surface = geometry.surface;
  const auto body_of = [&](Eigen::Index t) {
    return geometry.face(surface.face_of_triangle[static_cast<std::size_t>(t)]).body;
  };
  double area = 0.0;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t)
    if (geometry.body(body_of(t)).modelled)
      area += 0.5 * flat_triangle(surface, t).outward().norm();
  Random random;
  double volume = 0.0, surface_sum = 0.0, share = random();  // of the chord that is due next
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    if (!geometry.body(body_of(t)).modelled) continue;
    const FlatTriangle triangle = flat_triangle(surface, t);
    const Vector3d outward = triangle.outward();
    for (share += chords * 0.5 * outward.norm() / area; share >= 1.0; share -= 1.0) {
      const double root = std::sqrt(random()), side = random();
      const Vector3d start = triangle.a + root * (1.0 - side) * (triangle.b - triangle.a) +
                             root * side * (triangle.c - triangle.a);
      const Vector3d direction = direction_into(-outward.normalized(), random);
      const auto exit = rays[index(body_of(t))].first_exit(start, direction);
      if (exit) volume += integral_along(start, direction, exit->distance, sizes);
      const double size = sizes.on_surface(start);
      surface_sum += 1.0 / (size * size);
    }
  }
  return {0.25 * area * volume / chords, area * surface_sum / chords};
}

double expected_unknowns(const SizedExtent& extent) { return 20.0 * (extent.volume + extent.area); }

Eigen::Index unknowns_when_curved(const TetrahedronMesh& straight) {
  // Euler: nodes - edges + sides - tetrahedra is a small number, and every tetrahedron has four
  // half sides inside, the boundary's being whole.
  const Eigen::Index sides = (4 * straight.tetrahedron_count() + straight.triangle_count()) / 2;
  const Eigen::Index edges = straight.node_count() + sides - straight.tetrahedron_count();
  return 3 * (straight.node_count() + edges);
}

}  // namespace crossgrain
