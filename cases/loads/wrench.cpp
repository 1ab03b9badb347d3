// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/wrench.h"

namespace crossgrain {

Eigen::VectorXd spread_wrench(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const Wrench& wrench, const ScalarOfPosition& weight) {
  const auto centroid = face_moments(mesh, faces, weight).centroid;
  return spread_force(mesh, faces, wrench.force, wrench.moment - centroid.cross(wrench.force),
                      weight);
}

}  // namespace crossgrain
