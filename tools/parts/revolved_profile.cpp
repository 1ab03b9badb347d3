// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/parts/revolved_profile.h"

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <cmath>
#include <gp_Ax1.hxx>
#include <gp_Ax2.hxx>

namespace crossgrain::parts {
namespace {

gp_Pnt point(double r, double z) { return gp_Pnt(r, 0.0, z); }

/// Where a corner's rounding starts, lies at its middle, and ends.
struct RoundedCorner {
  gp_Pnt start, middle, end;
  bool rounded;
};

RoundedCorner round_corner(const ProfileCorner& before, const ProfileCorner& corner,
                           const ProfileCorner& after) {
  const gp_Pnt c = point(corner.r, corner.z);
  if (!(corner.fillet > 0.0)) return {c, c, c, false};
  const gp_Dir to_before(gp_Vec(c, point(before.r, before.z)));
  const gp_Dir to_after(gp_Vec(c, point(after.r, after.z)));
  const double half = 0.5 * to_before.Angle(to_after);
  const double reach = corner.fillet / std::tan(half);
  const gp_Dir bisector(gp_Vec(to_before) + gp_Vec(to_after));
  const double to_arc = corner.fillet / std::sin(half) - corner.fillet;
  return {c.Translated(gp_Vec(to_before) * reach), c.Translated(gp_Vec(bisector) * to_arc),
          c.Translated(gp_Vec(to_after) * reach), true};
}

}  // namespace

TopoDS_Shape revolved_profile(const std::vector<ProfileCorner>& corners) {
  const std::size_t n = corners.size();
  std::vector<RoundedCorner> rounded;
  for (std::size_t i = 0; i < n; ++i) {
    rounded.push_back(round_corner(corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]));
  }
  BRepBuilderAPI_MakeWire wire;
  for (std::size_t i = 0; i < n; ++i) {
    if (rounded[i].rounded) {
      wire.Add(BRepBuilderAPI_MakeEdge(
          GC_MakeArcOfCircle(rounded[i].start, rounded[i].middle, rounded[i].end).Value()));
    }
    const gp_Pnt& from = rounded[i].end;
    const gp_Pnt& to = rounded[(i + 1) % n].start;
    if (from.Distance(to) > 1e-9) wire.Add(BRepBuilderAPI_MakeEdge(from, to));
  }
  const TopoDS_Face section = BRepBuilderAPI_MakeFace(wire.Wire(), Standard_True);
  return BRepPrimAPI_MakeRevol(section, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))).Shape();
}

TopoDS_Shape rod(double x, double y, double z, double axis_x, double axis_y, double axis_z,
                 double diameter, double length) {
  const gp_Ax2 axes(gp_Pnt(x, y, z), gp_Dir(axis_x, axis_y, axis_z));
  return BRepPrimAPI_MakeCylinder(axes, 0.5 * diameter, length).Shape();
}

}  // namespace crossgrain::parts
