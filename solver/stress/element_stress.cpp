// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/element_stress.h"

#include <Eigen/Cholesky>

#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"
#include "solver/stress/elastic_strain.h"

namespace crossgrain {

Eigen::MatrixX4d fit_at_corners(const TetrahedronRule& rule) {
  Eigen::MatrixX4d at_points(rule.size(), 4);
  at_points << Eigen::VectorXd::Ones(rule.size()), rule.points.transpose();
  Eigen::Matrix4d at_corners;
  at_corners << Eigen::RowVector4d::Ones(), Eigen::Vector3d::Zero(), Eigen::Matrix3d::Identity();
  return at_points * (at_points.transpose() * at_points).llt().solve(at_corners);
}

namespace {

ElementStress room_for(const TetrahedronMesh& mesh) {
  ElementStress stress;
  stress.at_corners.resize(6, 4 * mesh.tetrahedron_count());
  stress.volumes.resize(mesh.tetrahedron_count());
  return stress;
}

/// An element at the points of a rule, and their fit.
struct FittedElement {
  explicit FittedElement(const TetrahedronRule& rule)
      : at_points(rule), fit(fit_at_corners(rule)), values(6, rule.size()) {}
  ElementAtPoints at_points;
  Eigen::MatrixX4d fit;
  Eigen::Matrix<double, 6, Eigen::Dynamic> values;
};

ElementStress with_temperature(const TetrahedronMesh& mesh, const MaterialField& field,
                               const Eigen::VectorXd& displacement,
                               const Eigen::VectorXd& temperature_change) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  ElementStress stress = room_for(mesh);
  in_parallel(mesh.tetrahedron_count(), 0, [&](Eigen::Index begin, Eigen::Index end) {
    FittedElement element(rule);
    PointMaterial material(field);
    ElasticStrain strain(mesh, displacement, temperature_change);
    for (auto t = begin; t < end; ++t) {
      element.at_points.move_to(mesh, t);
      strain.move_to(t);
      for (Eigen::Index q = 0; q < rule.size(); ++q)
        element.values.col(q) =
            material.stiffness(t, q) * strain.at(element.at_points, material, q);
      stress.at_corners.middleCols<4>(4 * t) = element.values * element.fit;
      stress.volumes[t] = element.at_points.volume();
    }
  });
  return stress;
}

}  // namespace

std::vector<ElementStress> element_stress_of_each(const TetrahedronMesh& mesh,
                                                  const MaterialField& field,
                                                  const Eigen::MatrixXd& displacements) {
  require_fits(field, mesh, stiffness_rule().size());
  if (displacements.rows() != mesh.unknowns() || !displacements.allFinite())
    throw std::invalid_argument("the displacement does not fit the mesh or is not finite");
  std::vector<ElementStress> stress(displacements.cols(), room_for(mesh));
  in_parallel(mesh.tetrahedron_count(), 0, [&](Eigen::Index begin, Eigen::Index end) {
    // Where edges are straight and the material is one, stress is linear: four points are exact.
    FittedElement straight(tetrahedron_rule(2)), curved(stiffness_rule());
    PointMaterial material(field);
    for (auto t = begin; t < end; ++t) {
      FittedElement& element =
          field.one_frame_per_element() && has_straight_edges(mesh, t) ? straight : curved;
      element.at_points.move_to(mesh, t);
      for (std::size_t i = 0; i < stress.size(); ++i) {
        const auto at_nodes = nodal_vectors(mesh, t, displacements.col(static_cast<int>(i)));
        for (Eigen::Index q = 0; q < element.at_points.size(); ++q)
          element.values.col(q) =
              material.stiffness(t, q) * strain_of(element.at_points.gradients(q), at_nodes);
        stress[i].at_corners.middleCols<4>(4 * t) = element.values * element.fit;
        stress[i].volumes[t] = element.at_points.volume();
      }
    }
  });
  return stress;
}

ElementStress element_stress(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Eigen::VectorXd& displacement,
                             const Eigen::VectorXd& temperature_change) {
  if (temperature_change.size() > 0)
    return with_temperature(mesh, field, displacement, temperature_change);
  return std::move(element_stress_of_each(mesh, field, displacement).front());
}

}  // namespace crossgrain
