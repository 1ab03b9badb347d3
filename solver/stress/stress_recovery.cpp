// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/stress_recovery.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cassert>
#include <stdexcept>

#include "solver/assembly/node_adjacency.h"
#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/point_material.h"
#include "solver/elements/strain.h"

namespace crossgrain {
namespace {

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

/// Points x 10: values at a rule's points -> the linear least-squares fit, taken at the ten nodes.
Eigen::Matrix<double, Eigen::Dynamic, 10> fit_at_nodes(const TetrahedronRule& rule) {
  Eigen::MatrixX4d at_points(rule.size(), 4);
  at_points << Eigen::VectorXd::Ones(rule.size()), rule.points.transpose();
  Eigen::Matrix<double, 4, 10> at_nodes;
  at_nodes << Eigen::RowVectorXd::Ones(10), tetrahedron_nodes();
  return at_points * (at_points.transpose() * at_points).llt().solve(at_nodes);
}

/// Stress at an element's ten nodes, and its volume.
struct NodalStress {
  Eigen::Matrix<double, 6, 10> at_nodes;
  double volume;
};

std::vector<NodalStress> stress_in_elements(const TetrahedronMesh& mesh, const MaterialField& field,
                                            const Eigen::VectorXd& displacement,
                                            const Eigen::VectorXd& temperature_change) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  const auto fit = fit_at_nodes(rule);
  std::vector<NodalStress> stresses(mesh.tetrahedron_count());
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
      stresses[t] = {at_points * fit, element.volume()};
    }
  });
  return stresses;
}

}  // namespace

std::vector<StressPoint> stress_points(const TetrahedronMesh& mesh) {
  std::vector<StressPoint> points;
  points.reserve(mesh.node_count());
  const NodeAdjacency adjacency(mesh);
  for (int node = 0; node < mesh.node_count(); ++node) {
    const auto first_here = std::ssize(points);
    for (const auto& [tetrahedron, local] : adjacency.at(node)) {
      const BodyId body = mesh.body_of_tetrahedron[tetrahedron];
      const bool known = std::any_of(points.begin() + first_here, points.end(),
                                     [&](const auto& point) { return point.body == body; });
      if (!known) points.push_back({node, body, tetrahedron});
    }
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const auto& a, const auto& b) { return a.body < b.body; });
  return points;
}

Eigen::Matrix<double, 6, Eigen::Dynamic> recover_stress(const TetrahedronMesh& mesh,
                                                        const MaterialField& field,
                                                        const std::vector<StressPoint>& points,
                                                        const Eigen::VectorXd& displacement,
                                                        const Eigen::VectorXd& temperature_change) {
  const auto elements = stress_in_elements(mesh, field, displacement, temperature_change);
  const NodeAdjacency adjacency(mesh);
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress(6, points.size());
  in_parallel(std::ssize(points), 0, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto p = begin; p < end; ++p) {
      Vector6d sum = Vector6d::Zero();
      double volume = 0.0;
      for (const auto& [tetrahedron, local] : adjacency.at(points[p].node)) {
        if (mesh.body_of_tetrahedron[tetrahedron] != points[p].body) continue;
        sum += elements[tetrahedron].volume * elements[tetrahedron].at_nodes.col(local);
        volume += elements[tetrahedron].volume;
      }
      assert(volume > 0.0);
      stress.col(p) = sum / volume;
    }
  });
  return stress;
}

double strain_energy(const TetrahedronMesh& mesh, const MaterialField& field,
                     const Eigen::VectorXd& displacement,
                     const Eigen::VectorXd& temperature_change) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  // Summed by element and then in order: the same for any number of threads.
  Eigen::VectorXd energy = Eigen::VectorXd::Zero(mesh.tetrahedron_count());
  in_parallel(mesh.tetrahedron_count(), 0, [&](Eigen::Index begin, Eigen::Index end) {
    ElementAtPoints element(rule);
    PointMaterial material(field);
    ElasticStrain strain(mesh, displacement, temperature_change);
    for (auto t = begin; t < end; ++t) {
      element.move_to(mesh, t);
      strain.move_to(t);
      for (Eigen::Index q = 0; q < rule.size(); ++q) {
        const Vector6d elastic = strain.at(element, material, q);
        energy[t] += 0.5 * element.weight(q) * elastic.dot(material.stiffness(t, q) * elastic);
      }
    }
  });
  return energy.sum();
}

std::vector<double> body_masses(const TetrahedronMesh& mesh, const MaterialField& field) {
  const auto& rule = stiffness_rule();
  require_fits(field, mesh, rule.size());
  std::vector<double> masses;
  ElementAtPoints element(rule);
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    element.move_to(mesh, t);
    const auto body = index(mesh.body_of_tetrahedron[t]);
    if (body >= masses.size()) masses.resize(body + 1, 0.0);
    masses[body] += field.material(t).density * element.volume();
  }
  return masses;
}

}  // namespace crossgrain
