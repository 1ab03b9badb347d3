// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <Eigen/Core>
#include <TopoDS_Face.hxx>

namespace crossgrain {

/// Integrals over a face, its normal n out of the body and r the way from a reference point.
struct FaceIntegrals {
  double area = 0.0;                                      ///< [mm^2]
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();       ///< of r dA [mm^3]
  Eigen::Vector3d vector_area = Eigen::Vector3d::Zero();  ///< of n dA [mm^2]
  double cone_volume = 0.0;                               ///< a third of r . n dA [mm^3]
  Eigen::Vector3d cone_moment = Eigen::Vector3d::Zero();  ///< of r_i^2 n_i / 2 dA [mm^4]
};

/// Integrate over the trimmed surface, refining until two steps agree to about 1e-7 of the face.
/// The kernel's own rules miss this: on an involute flank by 1e-4, on a thread by 1e-2, one in its
/// plain, the other in its adaptive form.
FaceIntegrals integrate_over(const TopoDS_Face& face, const Eigen::Vector3d& reference);

}  // namespace crossgrain
