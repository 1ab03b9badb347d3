// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Points of a surface with its unit normals there, one a column.
struct SampledSurface {
  Eigen::Matrix3Xd points;   ///< [mm]
  Eigen::Matrix3Xd normals;  ///< on either side, but all on the same
};

/// A surface by what it is rather than by how the file writes it; the members mean what CadFace's
/// of the same name mean.
struct ElementarySurface {
  SurfaceKind kind;
  Eigen::Vector3d axis = Eigen::Vector3d::Zero();
  Eigen::Vector3d origin = Eigen::Vector3d::Zero();
  double radius = 0.0;
  double half_angle = 0.0;
};

/// The plane, cylinder, sphere or cone that all points lie on within the tolerance and to which all
/// normals are normal. Many writers export these as splines or swept curves.
/// @param tolerance  [mm]
/// @return nullopt if it is none of them.
std::optional<ElementarySurface> recognise(const SampledSurface& sampled, double tolerance);

}  // namespace crossgrain
