// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_extent.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <random>

#include "mesh/geometry/flat_triangle.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

constexpr int enough_cells = 4'000;

/// The same numbers in every library: the standard leaves its distributions open.
class Random {
 public:
  double operator()() { return (static_cast<double>(engine_()) - 1.0) / 2147483646.0; }
  Vector3d in_cube() {
    const double x = (*this)(), y = (*this)(), z = (*this)();
    return Vector3d(x, y, z) - Vector3d::Constant(0.5);
  }

 private:
  std::minstd_rand engine_{1};
};

struct Cell {
  Vector3d middle;  ///< [mm]
  double edge;      ///< [mm]
  bool filled;      ///< known to lie inside; else its points must be looked at
};

/// Cubes of about `coarseness` edges a side, each asked at one random point.
class CellSum {
 public:
  CellSum(const SizeField& sizes, double coarseness) : sizes_(sizes), coarseness_(coarseness) {}

  void take_body(const Body& body, const SurfaceRays& rays) {
    rays_ = &rays;
    take({0.5 * (body.box.low + body.box.high), (body.box.high - body.box.low).maxCoeff(), false});
  }

  int cells() const { return cells_; }
  double sum() const { return sum_; }

 private:
  void take(const Cell& cell) {
    if (cell.edge > coarseness_ * sizes_.inside(cell.middle)) {
      divide(cell);
      return;
    }
    ++cells_;
    const Vector3d point = cell.middle + cell.edge * random_.in_cube();
    if (!cell.filled && !inside(point)) return;
    const double edges = cell.edge / sizes_.inside(point);
    sum_ += edges * edges * edges;
  }

  bool inside(const Vector3d& point) const {
    const auto hit = rays_->first_hit(point, Vector3d(0.267, 0.535, 0.802).normalized());
    return hit && !hit->from_outside;
  }

  void divide(const Cell& cell) {
    bool filled = cell.filled;
    if (!filled) {
      const double corner = 0.5 * std::sqrt(3.0) * cell.edge;
      const bool pure = !(rays_->distance(cell.middle, corner) < corner);
      filled = pure && inside(cell.middle);
      if (pure && !filled) return;
    }
    for (int i = 0; i < 8; ++i) {
      const Vector3d side((i & 1) ? 0.25 : -0.25, (i & 2) ? 0.25 : -0.25, (i & 4) ? 0.25 : -0.25);
      take({cell.middle + cell.edge * side, 0.5 * cell.edge, filled});
    }
  }

  const SurfaceRays* rays_ = nullptr;  ///< of the body at hand
  const SizeField& sizes_;
  double coarseness_;
  Random random_;
  int cells_ = 0;
  double sum_ = 0.0;
};

double volume_in_sizes(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                       const SizeField& sizes) {
  constexpr double finest = 0.1;  // parts of few elements: no need to know better
  for (double coarseness = 8.0;; coarseness *= 0.5) {
    CellSum sum(sizes, coarseness);
    for (const Body& body : geometry.bodies)
      if (body.modelled) sum.take_body(body, rays[index(body.id)]);
    if (sum.cells() >= enough_cells || coarseness < finest) return sum.sum();
  }
}

/// Halved until its edges are no longer than twice the size there.
double area_in_sizes(const FlatTriangle& triangle, const SizeField& sizes) {
  const Vector3d middle = (triangle.a + triangle.b + triangle.c) / 3.0;
  const double size = sizes.on_surface(middle), ab = (triangle.b - triangle.a).norm(),
               bc = (triangle.c - triangle.b).norm(), ca = (triangle.a - triangle.c).norm(),
               longest = std::max({ab, bc, ca});
  if (!(longest > 2.0 * size)) return 0.5 * triangle.outward().norm() / (size * size);
  FlatTriangle first = triangle, second = triangle;
  if (ab == longest) {
    first.b = second.a = 0.5 * (triangle.a + triangle.b);
  } else if (bc == longest) {
    first.c = second.b = 0.5 * (triangle.b + triangle.c);
  } else {
    first.c = second.a = 0.5 * (triangle.c + triangle.a);
  }
  return area_in_sizes(first, sizes) + area_in_sizes(second, sizes);
}

}  // namespace

SizedExtent extent_in_sizes(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                            const SizeField& sizes) {
  SizedExtent extent{volume_in_sizes(geometry, rays, sizes), 0.0};
  const SurfaceTriangles& surface = geometry.surface;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    if (geometry.body(geometry.face(face).body).modelled)
      extent.area += area_in_sizes(flat_triangle(surface, t), sizes);
  }
  return extent;
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
