// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <TopoDS_Shape.hxx>
#include <vector>

namespace crossgrain::parts {

/// A corner of a half section in the r-z plane [mm]; rounded with `fillet` if that is positive.
/// Corners on a straight line are kept: each stretch between them becomes a face of its own.
struct ProfileCorner {
  double r;
  double z;
  double fillet = 0.0;
};

/// The solid swept by a closed profile turned about the z axis.
TopoDS_Shape revolved_profile(const std::vector<ProfileCorner>& corners);

/// A cylinder of diameter d from `base` along `axis` over `length` [mm], for cutting holes and
/// adding bosses.
TopoDS_Shape rod(double x, double y, double z, double axis_x, double axis_y, double axis_z,
                 double diameter, double length);

}  // namespace crossgrain::parts
