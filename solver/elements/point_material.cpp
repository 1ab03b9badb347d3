// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/point_material.h"

namespace crossgrain {

PointMaterial::PointMaterial(const MaterialField& field) : field_(field) {
  for (const auto& material : field.materials)
    stiffness_in_material_axes_.push_back(crossgrain::stiffness(material.elastic));
}

const Matrix6d& PointMaterial::stiffness(Eigen::Index tetrahedron, Eigen::Index point) {
  move_to(tetrahedron, point);
  return stiffness_;
}

const Vector6d& PointMaterial::thermal_strain(Eigen::Index tetrahedron, Eigen::Index point) {
  move_to(tetrahedron, point);
  return thermal_strain_;
}

void PointMaterial::move_to(Eigen::Index tetrahedron, Eigen::Index point) {
  const int material = field_.material_of_tetrahedron[tetrahedron];
  const int frame = field_.frame_number(tetrahedron, point);
  if (material == material_ && frame == frame_) return;
  stiffness_ = rotate_stiffness(stiffness_in_material_axes_[material], field_.frames[frame]);
  thermal_strain_ =
      thermal_strain_per_kelvin(field_.materials[material].thermal_expansion, field_.frames[frame]);
  material_ = material;
  frame_ = frame;
}

}  // namespace crossgrain
