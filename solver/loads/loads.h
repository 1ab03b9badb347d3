// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

// Every load is a vector of nodal forces, 3 x nodes stacked x y z per node [N]: consistent with the
// shape functions, integrated on the curved faces or elements. Scaling and adding them is the
// caller's business.

/// A quantity over space.
using ScalarOfPosition = std::function<double(const Eigen::Vector3d&)>;
using VectorOfPosition = std::function<Eigen::Vector3d(const Eigen::Vector3d&)>;

/// Pressure [MPa] pushing into the body on the triangles of these faces.
Eigen::VectorXd pressure_load(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const ScalarOfPosition& pressure);

/// Traction [MPa] on the triangles of these faces.
Eigen::VectorXd traction_load(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const VectorOfPosition& traction);

/// Area [mm^2], first and second moments of faces, where `weight` (default 1; 0 outside an annulus)
/// counts.
struct FaceMoments {
  double area;
  Eigen::Vector3d centroid;
  Eigen::Matrix3d second_moment;  ///< integral of (x-c)(x-c)^t [mm^4]
};
FaceMoments face_moments(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                         const ScalarOfPosition& weight = {});

/// A force [N] and a moment about the faces' centroid [N mm], spread as a traction field over the
/// faces without stiffening them: the field is linear in position and statically equivalent.
/// @throws std::invalid_argument if the weighted area is zero, or a moment cannot be carried (faces
/// of no extent).
Eigen::VectorXd spread_force(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                             const Eigen::Vector3d& force, const Eigen::Vector3d& moment,
                             const ScalarOfPosition& weight = {});

/// Acceleration field [mm/s^2] on every body's mass, e.g. gravity (0, 0, -9810).
Eigen::VectorXd body_load(const TetrahedronMesh& mesh, const MaterialField& field,
                          const Eigen::Vector3d& acceleration);

/// Inertia: the consistent mass matrix times a nodal vector field, e.g. an acceleration [mm/s^2]
/// interpolated by the shape functions.
Eigen::VectorXd mass_times(const TetrahedronMesh& mesh, const MaterialField& field,
                           const Eigen::VectorXd& nodal_vectors);

/// Free expansion under a change of temperature per node [K].
Eigen::VectorXd thermal_load(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Eigen::VectorXd& temperature_change);

/// Resultant force [N] and moment [N mm] about `about` of nodal forces.
struct Resultant {
  Eigen::Vector3d force;
  Eigen::Vector3d moment;
};
Resultant resultant(const TetrahedronMesh& mesh, const Eigen::VectorXd& nodal_forces,
                    const Eigen::Vector3d& about = Eigen::Vector3d::Zero());

}  // namespace crossgrain
