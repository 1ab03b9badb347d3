// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/point_material.h"
#include "solver/elements/strain.h"

namespace crossgrain {

/// Elastic strain at the points of an element, thermal strain taken off.
class ElasticStrain {
 public:
  ElasticStrain(const TetrahedronMesh& mesh, const Eigen::VectorXd& displacement,
                const Eigen::VectorXd& temperature_change)
      : mesh_(mesh), displacement_(displacement), temperature_change_(temperature_change) {
    if (displacement.size() != mesh.unknowns() || !displacement.allFinite())
      throw std::invalid_argument("the displacement does not fit the mesh or is not finite");
    if (temperature_change.size() != 0 && temperature_change.size() != mesh.node_count())
      throw std::invalid_argument("the temperature change does not fit the mesh");
  }

  void move_to(Eigen::Index tetrahedron) {
    tetrahedron_ = tetrahedron;
    at_nodes_ = nodal_vectors(mesh_, tetrahedron, displacement_);
    if (temperature_change_.size() != 0)
      temperature_at_nodes_ = temperature_change_(mesh_.tetrahedra.col(tetrahedron));
  }
  Vector6d at(const ElementAtPoints& element, PointMaterial& material, Eigen::Index q) const {
    const Vector6d strain = strain_of(element.gradients(q), at_nodes_);
    if (temperature_change_.size() == 0) return strain;
    return strain -
           material.thermal_strain(tetrahedron_, q) * temperature_at_nodes_.dot(element.shape(q));
  }

 private:
  const TetrahedronMesh& mesh_;
  const Eigen::VectorXd& displacement_;
  const Eigen::VectorXd& temperature_change_;
  Eigen::Index tetrahedron_ = -1;
  Eigen::Matrix<double, 3, 10> at_nodes_;
  TetrahedronShape temperature_at_nodes_;
};

}  // namespace crossgrain
