// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/model.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::verification {
namespace {

int node_at(const TetrahedronMesh& mesh, const Eigen::Vector3d& position) {
  const int node = testing::nearest_node(mesh, position);
  if (!((mesh.nodes.col(node) - position).norm() < 1e-6)) {
    std::ostringstream message;
    message << "no node at " << position.transpose() << ", the nearest is at "
            << mesh.nodes.col(node).transpose();
    throw std::invalid_argument(message.str());
  }
  return node;
}

}  // namespace

Answer solve(const Model& model, const Eigen::VectorXd& load,
             const Eigen::VectorXd& temperature_change) {
  StaticSolver solver(model.mesh, model.held);
  solver.set_material(model.field);
  Answer answer;
  answer.displacement = solver.solve(load);
  answer.points = stress_points(model.mesh);
  answer.stress = recover_stress(model.mesh, model.field, answer.points, answer.displacement,
                                 temperature_change);
  return answer;
}

Eigen::Vector3d displacement_at(const Model& model, const Answer& answer,
                                const Eigen::Vector3d& position) {
  return answer.displacement.segment<3>(3 * node_at(model.mesh, position));
}

Vector6d stress_at(const Model& model, const Answer& answer, const Eigen::Vector3d& position,
                   BodyId body) {
  const int node = node_at(model.mesh, position);
  const auto point =
      std::find_if(answer.points.begin(), answer.points.end(),
                   [&](const StressPoint& p) { return p.node == node && p.body == body; });
  if (point == answer.points.end())
    throw std::invalid_argument("the body has no stress point at that node");
  return answer.stress.col(point - answer.points.begin());
}

double stress_component(const Vector6d& stress, const Eigen::Vector3d& a,
                        const Eigen::Vector3d& b) {
  Eigen::Matrix3d matrix;
  matrix << stress[0], stress[5], stress[4],  //
      stress[5], stress[1], stress[3],        //
      stress[4], stress[3], stress[2];
  return a.dot(matrix * b);
}

double normal_stress(const Vector6d& stress, const Eigen::Vector3d& direction) {
  return stress_component(stress, direction, direction);
}

SolidMaterial elastic_material(const OrthotropicConstants& constants,
                               const Eigen::Vector3d& expansion) {
  return {constants, expansion, 1e-9, LayeredStrength{1.0, 1.0, 1.0, 1.0, 1.0}};
}

Frame skew_frame() {
  return (Eigen::AngleAxisd(0.4, Eigen::Vector3d::UnitZ()) *
          Eigen::AngleAxisd(0.7, Eigen::Vector3d::UnitX()) *
          Eigen::AngleAxisd(1.1, Eigen::Vector3d::UnitY()))
      .toRotationMatrix();
}

MaterialField same_everywhere(const TetrahedronMesh& mesh, const SolidMaterial& material,
                              const Frame& frame) {
  const auto& bodies = mesh.body_of_tetrahedron;
  const std::size_t count = index(*std::max_element(bodies.begin(), bodies.end())) + 1;
  return uniform_field(mesh, std::vector<SolidMaterial>(count, material),
                       std::vector<Frame>(count, frame));
}

MaterialField following(const TetrahedronMesh& mesh, const std::vector<SolidMaterial>& materials,
                        const std::function<Frame(const Eigen::Vector3d&)>& frame) {
  MaterialField field;
  field.materials = materials;
  for (BodyId body : mesh.body_of_tetrahedron)
    field.material_of_tetrahedron.push_back(static_cast<int>(index(body)));
  ElementAtPoints element(stiffness_rule());
  field.frame_of_point.resize(mesh.tetrahedron_count(), element.size());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    element.move_to(mesh, t);
    for (Eigen::Index q = 0; q < element.size(); ++q) {
      field.frame_of_point(t, q) = static_cast<int>(field.frames.size());
      field.frames.push_back(frame(element.position(q)));
    }
  }
  return field;
}

Frame hoop_frame(const Eigen::Vector3d& position) {
  const Eigen::Vector3d outward = Eigen::Vector3d(position.x(), position.y(), 0.0).normalized();
  Frame frame;
  frame << Eigen::Vector3d::UnitZ().cross(outward), -outward, Eigen::Vector3d::UnitZ();
  return frame;
}

Support held_along(const std::vector<FaceId>& faces, const Eigen::Vector3d& direction) {
  return {"held", faces, Hold::direction, direction};
}

void hold_nodes(std::vector<NodeConstraint>& held, const std::vector<int>& nodes,
                const Eigen::Vector3d& direction) {
  for (int node : nodes) {
    auto at = std::find_if(held.begin(), held.end(),
                           [&](const NodeConstraint& c) { return c.node == node; });
    if (at == held.end()) at = held.insert(held.end(), NodeConstraint{node, {}});
    Eigen::Vector3d rest = direction;
    for (const auto& column : at->held.colwise()) rest -= column.dot(direction) * column;
    if (rest.norm() < 1e-6) continue;  // held already
    at->held.conservativeResize(Eigen::NoChange, at->held.cols() + 1);
    at->held.rightCols<1>() = rest.normalized();
  }
}

}  // namespace crossgrain::verification
