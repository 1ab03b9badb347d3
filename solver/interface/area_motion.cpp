// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/area_motion.h"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <map>
#include <stdexcept>

#include "solver/elements/face_triangles.h"
#include "solver/loads/surface_integrals.h"

namespace crossgrain {

Eigen::Vector3d AreaMotion::displacement(const Eigen::VectorXd& u) const {
  Eigen::Vector3d mean = Eigen::Vector3d::Zero();
  for (const auto& share : shares)
    mean += share.weight * u.segment<3>(3 * Eigen::Index{share.node});
  return mean;
}

AreaMotion area_motion(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                       const ScalarOfPosition& weight, const std::string& wanted_for) {
  struct Sums {
    double weight = 0.0;
    Eigen::Vector3d place = Eigen::Vector3d::Zero();
  };
  std::map<int, Sums> of_node;
  Sums all;
  double seat = 0.0;
  Eigen::Matrix3d second = Eigen::Matrix3d::Zero();
  for_each_surface_point(mesh, triangles_on(mesh, faces, wanted_for.c_str()), weight,
                         [&](const SurfacePoint& point) {
                           seat += point.area.norm();
                           const double area = point.weight * point.area.norm();
                           all.weight += area;
                           all.place += area * point.position;
                           second += area * point.position * point.position.transpose();
                           for (int a = 0; a < 6; ++a) {
                             auto& sums = of_node[mesh.triangles(a, point.triangle)];
                             sums.weight += area * point.shape[a];
                             sums.place += area * point.shape[a] * point.position;
                           }
                         });
  if (!(all.weight > 0.0))
    throw std::invalid_argument(wanted_for +
                                ": nothing of its faces lies where it should bear on them");

  AreaMotion motion;
  motion.area = seat;
  motion.centre = all.place / all.weight;
  const Eigen::Matrix3d spread = second / all.weight - motion.centre * motion.centre.transpose();
  motion.gyration = spread.trace() * Eigen::Matrix3d::Identity() - spread;
  const auto extents =
      Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(motion.gyration).eigenvalues();
  if (!(extents[0] > 1e-9 * extents[2]))
    throw std::invalid_argument(wanted_for + ": the area that it bears on is a line");
  for (const auto& [node, sums] : of_node)
    motion.shares.push_back(
        {node, sums.weight / all.weight, (sums.place - sums.weight * motion.centre) / all.weight});
  return motion;
}

}  // namespace crossgrain
