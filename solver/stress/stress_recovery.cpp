// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/stress_recovery.h"

#include <algorithm>
#include <cassert>

#include "solver/assembly/node_adjacency.h"
#include "solver/elements/parallel.h"
#include "solver/elements/shape_functions.h"
#include "solver/stress/elastic_strain.h"

namespace crossgrain {
namespace {

/// At one of an element's ten nodes; a middle lies half-way.
Vector6d at_node(const ElementStress& stress, int tetrahedron, int local) {
  const auto corners = stress.of(tetrahedron);
  if (local < 4) return corners.col(local);
  const auto [a, b] = edges_of_tetrahedron[local - 4];
  return 0.5 * (corners.col(a) + corners.col(b));
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

Eigen::Matrix<double, 6, Eigen::Dynamic> nodal_average(const TetrahedronMesh& mesh,
                                                       const std::vector<StressPoint>& points,
                                                       const ElementStress& elements) {
  const NodeAdjacency adjacency(mesh);
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress(6, points.size());
  in_parallel(std::ssize(points), 0, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto p = begin; p < end; ++p) {
      Vector6d sum = Vector6d::Zero();
      double volume = 0.0;
      for (const auto& [tetrahedron, local] : adjacency.at(points[p].node)) {
        if (mesh.body_of_tetrahedron[tetrahedron] != points[p].body) continue;
        sum += elements.volumes[tetrahedron] * at_node(elements, tetrahedron, local);
        volume += elements.volumes[tetrahedron];
      }
      assert(volume > 0.0);
      stress.col(p) = sum / volume;
    }
  });
  return stress;
}

Eigen::Matrix<double, 6, Eigen::Dynamic> recover_stress(const TetrahedronMesh& mesh,
                                                        const MaterialField& field,
                                                        const std::vector<StressPoint>& points,
                                                        const Eigen::VectorXd& displacement,
                                                        const Eigen::VectorXd& temperature_change) {
  return nodal_average(mesh, points, element_stress(mesh, field, displacement, temperature_change));
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
