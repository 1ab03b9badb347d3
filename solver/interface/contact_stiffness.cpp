// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/contact_stiffness.h"

#include <Eigen/Geometry>
#include <cmath>

#include "materials/elasticity/frame.h"

namespace crossgrain {
namespace {

constexpr double times_element = 5.0;

/// Young's modulus along a direction [MPa].
double modulus_along(const Eigen::Vector3d& direction, const OrthotropicConstants& constants,
                     const Frame& frame) {
  const Eigen::Matrix3d pull = direction * direction.transpose();
  Vector6d stress;
  stress << pull(0, 0), pull(1, 1), pull(2, 2), pull(1, 2), pull(0, 2), pull(0, 1);
  const Vector6d local = stress_in_material_axes(stress, frame);
  return 1.0 / local.dot(compliance(constants) * local);
}

double edge_length(const TetrahedronMesh& mesh, int triangle) {
  const auto corner = [&](int c) { return mesh.nodes.col(mesh.triangles(c, triangle)); };
  return std::sqrt(
      Eigen::Vector3d(corner(1) - corner(0)).cross(Eigen::Vector3d(corner(2) - corner(0))).norm());
}

}  // namespace

void set_contact_stiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                           std::vector<InterfacePoint>& points) {
  double area = 0.0, give = 0.0;
  for (const auto& point : points) {
    area += point.area;
    for (const auto& side : point.sides) {
      const int behind = mesh.tetrahedron_of_triangle[side.triangle];
      give += point.area * edge_length(mesh, side.triangle) /
              modulus_along(point.normal, field.material(behind).elastic, field.frame(behind, 0));
    }
  }
  for (auto& point : points) point.stiffness = times_element * area / give;
}

double element_compliance(const InterfacePoint& point) { return times_element / point.stiffness; }

}  // namespace crossgrain
