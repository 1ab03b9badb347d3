// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/printability.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "cases/studies/shadow_area.h"
#include "materials/elasticity/frame.h"

namespace crossgrain {
namespace {

/// One triangle in the printer's axes: plate along 1 and 2, build along 3.
struct PrintTriangle {
  std::array<Eigen::Vector3d, 3> corners;
  double area;
  double down;  // cosine between its outward normal and down
  FaceId face;
};

std::vector<PrintTriangle> triangles_of(const Geometry& geometry, BodyId body,
                                        const Frame& printer) {
  const SurfaceTriangles& surface = geometry.surface;
  std::vector<PrintTriangle> triangles;
  for (Eigen::Index i = 0; i < surface.triangles.cols(); ++i) {
    const FaceId face = surface.face_of_triangle[i];
    if (geometry.face(face).body != body) continue;
    PrintTriangle triangle;
    for (int k = 0; k < 3; ++k)
      triangle.corners[k] = printer.transpose() * surface.points.col(surface.triangles(k, i));
    const Eigen::Vector3d normal = (triangle.corners[1] - triangle.corners[0])
                                       .cross(triangle.corners[2] - triangle.corners[0]);
    if (!(normal.norm() > 0.0)) continue;
    triangle.area = 0.5 * normal.norm();
    triangle.down = -normal.normalized()[2];
    triangle.face = face;
    triangles.push_back(triangle);
  }
  return triangles;
}

FlatTriangle shadow(const PrintTriangle& triangle) {
  return {triangle.corners[0].head<2>(), triangle.corners[1].head<2>(),
          triangle.corners[2].head<2>()};
}

void add_body(Printability& sum, const std::vector<PrintTriangle>& triangles, double overhang_angle,
              const std::set<FaceId>& cavity) {
  double plate = std::numeric_limits<double>::infinity();
  double top = -plate;
  for (const PrintTriangle& triangle : triangles)
    for (const Eigen::Vector3d& corner : triangle.corners) {
      plate = std::min(plate, corner[2]);
      top = std::max(top, corner[2]);
    }
  if (!(top >= plate)) return;

  const OverhangLimits limits = overhang_limits(overhang_angle);
  std::vector<FlatTriangle> shadows;
  for (const PrintTriangle& triangle : triangles) {
    // Every shadow of a closed body is cast by the surfaces that face down.
    if (!(triangle.down > 0.0)) continue;
    shadows.push_back(shadow(triangle));
    const bool flat = triangle.down > limits.flat;
    const bool low = std::all_of(
        triangle.corners.begin(), triangle.corners.end(),
        [&](const Eigen::Vector3d& corner) { return corner[2] - plate < limits.on_plate_mm; });
    if (flat && low) {
      sum.plate_contact_mm2 += triangle.area;
    } else if (triangle.down > limits.needs_support) {
      sum.overhang_mm2 += triangle.area;
      if (cavity.contains(triangle.face)) sum.trapped_overhang_mm2 += triangle.area;
    }
  }
  sum.height_mm = std::max(sum.height_mm, top - plate);
  sum.footprint_mm2 += shadow_area(shadows);
}

}  // namespace

OverhangLimits overhang_limits(double overhang_angle) {
  constexpr double layer_share_mm = 0.01;   // a fraction of any layer
  constexpr double flat_rad = 0.02;         // facets of a flat face are flat to rounding
  constexpr double angle_slack_rad = 2e-3;  // a chamfer at the angle itself needs no support
  return {std::cos(overhang_angle - angle_slack_rad), std::cos(flat_rad), layer_share_mm};
}

Printability printability(const Geometry& geometry, const std::vector<BodyDirection>& bodies,
                          double overhang_angle, const std::vector<FaceId>& cavity) {
  const std::set<FaceId> inside(cavity.begin(), cavity.end());
  Printability sum;
  for (const auto& [body, build] : bodies)
    add_body(sum, triangles_of(geometry, body, frame_along(build)), overhang_angle, inside);
  return sum;
}

Printability printability(const Geometry& geometry, const std::vector<BodyId>& bodies,
                          const Eigen::Vector3d& build, double overhang_angle,
                          const std::vector<FaceId>& cavity) {
  std::vector<BodyDirection> standing;
  for (const BodyId body : bodies) standing.push_back({body, build});
  return printability(geometry, standing, overhang_angle, cavity);
}

void add_printability(DirectionRow& row, const Printability& cost) {
  row.height_mm = cost.height_mm;
  row.footprint_mm2 = cost.footprint_mm2;
  row.plate_contact_mm2 = cost.plate_contact_mm2;
  row.overhang_mm2 = cost.overhang_mm2;
  row.trapped_overhang_mm2 = cost.trapped_overhang_mm2;
}

}  // namespace crossgrain
