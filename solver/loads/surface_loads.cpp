// SPDX-License-Identifier: GPL-3.0-or-later
#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <cmath>
#include <sstream>
#include <stdexcept>

#include "solver/elements/face_triangles.h"
#include "solver/loads/loads.h"
#include "solver/loads/surface_integrals.h"

namespace crossgrain {
namespace {

template <class Value>
void require_finite(const Value& value, bool finite, const char* what,
                    const Eigen::Vector3d& position) {
  if (finite) return;
  std::ostringstream message;
  message << what << " is " << value << " at ("
          << position.transpose().format(Eigen::IOFormat(6, 0, ", "))
          << ") mm: not a finite number";
  throw std::invalid_argument(message.str());
}

/// Consistent nodal forces of what each surface point carries [N].
template <class ForceOfPoint>
Eigen::VectorXd surface_forces(const TetrahedronMesh& mesh, const std::vector<int>& triangles,
                               const ScalarOfPosition& weight, const ForceOfPoint& force_of) {
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh.unknowns());
  for_each_surface_point(mesh, triangles, weight, [&](const SurfacePoint& point) {
    const Eigen::Vector3d force = force_of(point);
    for (int i = 0; i < 6; ++i)
      forces.segment<3>(3 * Eigen::Index{mesh.triangles(i, point.triangle)}) +=
          point.shape[i] * force;
  });
  return forces;
}

FaceMoments moments_of(const TetrahedronMesh& mesh, const std::vector<int>& triangles,
                       const ScalarOfPosition& weight) {
  FaceMoments moments{0.0, Eigen::Vector3d::Zero(), Eigen::Matrix3d::Zero()};
  for_each_surface_point(mesh, triangles, weight, [&](const SurfacePoint& point) {
    moments.area += point.weight * point.area.norm();
    moments.centroid += point.weight * point.area.norm() * point.position;
  });
  if (!(moments.area > 0.0))
    throw std::invalid_argument(
        "no area is left of the chosen faces where the load may act; check the annulus against the "
        "faces");
  moments.centroid /= moments.area;
  for_each_surface_point(mesh, triangles, weight, [&](const SurfacePoint& point) {
    const Eigen::Vector3d arm = point.position - moments.centroid;
    moments.second_moment += point.weight * point.area.norm() * arm * arm.transpose();
  });
  return moments;
}

/// The rotation-like vector w of the traction field w x (x - c) that has this moment about c.
Eigen::Vector3d moment_field(const FaceMoments& face, const Eigen::Vector3d& moment) {
  if (moment == Eigen::Vector3d::Zero()) return moment;
  const Eigen::Matrix3d polar =
      face.second_moment.trace() * Eigen::Matrix3d::Identity() - face.second_moment;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(polar);
  // Faces along a straight line cannot carry a moment about it.
  if (!(axes.eigenvalues()[0] > 1e-9 * axes.eigenvalues()[2]))
    throw std::invalid_argument("the chosen faces have no extent across the moment's axis");
  return axes.eigenvectors() *
         (axes.eigenvectors().transpose() * moment).cwiseQuotient(axes.eigenvalues());
}

}  // namespace

Eigen::VectorXd pressure_load(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const ScalarOfPosition& pressure) {
  return surface_forces(mesh, triangles_on(mesh, faces, "pressure"), {},
                        [&](const SurfacePoint& point) {
                          const double p = pressure(point.position);
                          require_finite(p, std::isfinite(p), "pressure", point.position);
                          return Eigen::Vector3d(-p * point.area);
                        });
}

Eigen::VectorXd traction_load(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const VectorOfPosition& traction) {
  return surface_forces(mesh, triangles_on(mesh, faces, "traction"), {},
                        [&](const SurfacePoint& point) {
                          const Eigen::Vector3d t = traction(point.position);
                          require_finite(t.transpose(), t.allFinite(), "traction", point.position);
                          return Eigen::Vector3d(point.area.norm() * t);
                        });
}

FaceMoments face_moments(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                         const ScalarOfPosition& weight) {
  return moments_of(mesh, triangles_on(mesh, faces, "area of faces"), weight);
}

Eigen::VectorXd spread_force(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                             const Eigen::Vector3d& force, const Eigen::Vector3d& moment,
                             const ScalarOfPosition& weight) {
  if (!force.allFinite() || !moment.allFinite())
    throw std::invalid_argument("force on faces: force and moment must be finite numbers");
  const auto triangles = triangles_on(mesh, faces, "force on faces");
  const auto face = moments_of(mesh, triangles, weight);
  const Eigen::Vector3d mean = force / face.area;
  const Eigen::Vector3d slope = moment_field(face, moment);
  // The same points as the moments were taken with: statically equivalent whatever the weight.
  return surface_forces(mesh, triangles, weight, [&](const SurfacePoint& point) {
    const Eigen::Vector3d traction = mean + slope.cross(point.position - face.centroid);
    return Eigen::Vector3d(point.weight * point.area.norm() * traction);
  });
}

Resultant resultant(const TetrahedronMesh& mesh, const Eigen::VectorXd& nodal_forces,
                    const Eigen::Vector3d& about) {
  if (nodal_forces.size() != mesh.unknowns())
    throw std::invalid_argument("nodal forces do not fit the mesh");
  Resultant sum{Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    const Eigen::Vector3d force = nodal_forces.segment<3>(3 * i);
    sum.force += force;
    sum.moment += (mesh.nodes.col(i) - about).cross(force);
  }
  return sum;
}

}  // namespace crossgrain
