// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/material_field.h"
#include "solver/static_solver.h"
#include "solver/stress/stress_recovery.h"
#include "solver/supports/supports.h"

namespace crossgrain::verification {

/// A benchmark's body, material and supports.
struct Model {
  TetrahedronMesh mesh;
  MaterialField field;
  std::vector<NodeConstraint> held;
};

/// What the program says of one load.
struct Answer {
  Eigen::VectorXd displacement;                     ///< unknowns [mm]
  std::vector<StressPoint> points;                  ///< where stress is kept
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress;  ///< 6 x points [MPa], global axes
};

/// @param load  unknowns [N], the thermal part included.
/// @param temperature_change  nodes [K]; empty: none.
Answer solve(const Model& model, const Eigen::VectorXd& load,
             const Eigen::VectorXd& temperature_change = {});

/// At the node that lies there.
/// @throws std::invalid_argument if no node does, to 1e-6 mm.
Eigen::Vector3d displacement_at(const Model& model, const Answer& answer,
                                const Eigen::Vector3d& position);
Vector6d stress_at(const Model& model, const Answer& answer, const Eigen::Vector3d& position,
                   BodyId body = BodyId{1});

/// Stress along `a` on the plane across `b` (unit vectors) [MPa].
double stress_component(const Vector6d& stress, const Eigen::Vector3d& a, const Eigen::Vector3d& b);
/// Normal stress on the plane across `direction` (unit) [MPa].
double normal_stress(const Vector6d& stress, const Eigen::Vector3d& direction);

/// A material of these constants; the strength is a placeholder, the density 1e-9 tonne/mm^3.
/// @param expansion  along axes 1 2 3 [1/K].
SolidMaterial elastic_material(const OrthotropicConstants& constants,
                               const Eigen::Vector3d& expansion = Eigen::Vector3d::Zero());

/// Axes in no special position to anything: isotropic bodies must not notice them.
Frame skew_frame();

/// Every body of one material in the same frame.
MaterialField same_everywhere(const TetrahedronMesh& mesh, const SolidMaterial& material,
                              const Frame& frame);

/// A frame at every quadrature point.
/// @param materials  by body.
MaterialField following(const TetrahedronMesh& mesh, const std::vector<SolidMaterial>& materials,
                        const std::function<Frame(const Eigen::Vector3d&)>& frame);

/// Of a cylinder about z, wound or printed upright: axis 1 along the hoop, 2 towards the axis, 3
/// up.
Frame hoop_frame(const Eigen::Vector3d& position);

/// No motion of these faces along `direction` (unit).
Support held_along(const std::vector<FaceId>& faces, const Eigen::Vector3d& direction);

/// Hold single nodes along a direction (unit), beside what holds them already.
void hold_nodes(std::vector<NodeConstraint>& held, const std::vector<int>& nodes,
                const Eigen::Vector3d& direction);

}  // namespace crossgrain::verification
