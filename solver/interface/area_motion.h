// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/loads/loads.h"

namespace crossgrain {

/// Mean motion of a part of a body's faces, as a linear function of the displacement: what a head
/// or a thread follows without stiffening its seat.
struct AreaMotion {
  struct Share {
    int node;
    double weight;           ///< of the node in the mean displacement [-]; they sum to 1
    Eigen::Vector3d moment;  ///< weight times place, about the centre [mm]
  };
  Eigen::Vector3d centre;    ///< of the weights [mm]
  double area;               ///< where the weight is not zero [mm^2]
  Eigen::Matrix3d gyration;  ///< weighted mean of |r|^2 I - r r^t about the centre [mm^2]
  std::vector<Share> shares;

  Eigen::Vector3d displacement(const Eigen::VectorXd& u) const;
};

/// @param weight  relative pressure on the seat, 0 beside it; none: the same on all of the faces.
/// @param wanted_for  named in the error.
/// @throws std::invalid_argument if the weight leaves no area, or the seat is a line.
AreaMotion area_motion(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                       const ScalarOfPosition& weight, const std::string& wanted_for);

}  // namespace crossgrain
