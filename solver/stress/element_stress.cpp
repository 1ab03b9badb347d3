// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/element_stress.h"

#include <Eigen/Cholesky>

#include "solver/elements/parallel.h"
#include "solver/stress/elastic_strain.h"

namespace crossgrain {

Eigen::MatrixX4d fit_at_corners(const TetrahedronRule& rule) {
  Eigen::MatrixX4d at_points(rule.size(), 4);
  at_points << Eigen::VectorXd::Ones(rule.size()), rule.points.transpose();
  Eigen::Matrix4d at_corners;
  at_corners << Eigen::RowVector4d::Ones(), Eigen::Vector3d::Zero(), Eigen::Matrix3d::Identity();
  return at_points * (at_points.transpose() * at_points).llt().solve(at_corners);
}

ElementStress element_stress(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Eigen::VectorXd& displacement,
                             const Eigen::VectorXd& temperature_change) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  const auto fit = fit_at_corners(rule);
  ElementStress stress;
  stress.at_corners.resize(6, 4 * mesh.tetrahedron_count());
  stress.volumes.resize(mesh.tetrahedron_count());
  in_parallel(mesh.tetrahedron_count(), 0, [&](Eigen::Index begin, Eigen::Index end) {
    ElementAtPoints element(rule);
    PointMaterial material(field);
    ElasticStrain strain(mesh, displacement, temperature_change);
    Eigen::Matrix<double, 6, Eigen::Dynamic> at_points(6, rule.size());
    for (auto t = begin; t < end; ++t) {
      element.move_to(mesh, t);
      strain.move_to(t);
      for (Eigen::Index q = 0; q < rule.size(); ++q)
        at_points.col(q) = material.stiffness(t, q) * strain.at(element, material, q);
      stress.at_corners.middleCols<4>(4 * t) = at_points * fit;
      stress.volumes[t] = element.volume();
    }
  });
  return stress;
}

}  // namespace crossgrain
