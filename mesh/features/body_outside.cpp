// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/body_outside.h"

#include <algorithm>
#include <limits>

#include "mesh/geometry/surface_rays.h"

namespace crossgrain {

std::vector<std::vector<FaceId>> farthest_faces(const Geometry& geometry, BodyId body) {
  const SurfaceTriangles& surface = geometry.surface;
  const double tolerance = 1e-9 * geometry.box.diagonal();
  std::vector<std::vector<FaceId>> farthest;
  for (const Eigen::Vector3d& direction : even_directions(300)) {
    double height = -std::numeric_limits<double>::infinity();
    std::vector<FaceId> faces;
    for (std::size_t i = 0; i < surface.face_of_triangle.size(); ++i) {
      const FaceId face = surface.face_of_triangle[i];
      if (geometry.face(face).body != body) {
        continue;
      }
      for (const int corner : surface.triangles.col(static_cast<Eigen::Index>(i))) {
        const double h = direction.dot(surface.points.col(corner));
        if (h > height + tolerance) {
          faces.clear();
        }
        if (h > height - tolerance && (faces.empty() || faces.back() != face)) {
          faces.push_back(face);
        }
        height = std::max(height, h);
      }
    }
    farthest.push_back(std::move(faces));
  }
  return farthest;
}

}  // namespace crossgrain
