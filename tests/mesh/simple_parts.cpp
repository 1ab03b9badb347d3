// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/mesh/simple_parts.h"

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>

namespace crossgrain::testing {

TopoDS_Shape block(double x, double y, double z, double low_x, double low_y, double low_z) {
  return BRepPrimAPI_MakeBox(gp_Pnt(low_x, low_y, low_z), x, y, z).Shape();
}

TopoDS_Shape ball(double radius) { return BRepPrimAPI_MakeSphere(radius).Shape(); }

TopoDS_Shape tube(double outer, double inner, double length) {
  const TopoDS_Shape full = BRepPrimAPI_MakeCylinder(outer, length).Shape();
  const TopoDS_Shape bore = BRepPrimAPI_MakeCylinder(inner, length).Shape();
  return parts::only_solid(BRepAlgoAPI_Cut(full, bore).Shape());
}

TopoDS_Shape cut(TopoDS_Shape part, const std::vector<TopoDS_Shape>& tools) {
  for (const TopoDS_Shape& tool : tools) part = BRepAlgoAPI_Cut(part, tool).Shape();
  return parts::only_solid(part);
}

TopoDS_Shape fuse(TopoDS_Shape part, const std::vector<TopoDS_Shape>& more) {
  for (const TopoDS_Shape& addition : more) part = BRepAlgoAPI_Fuse(part, addition).Shape();
  return parts::only_solid(part);
}

StepFile::StepFile(const std::vector<parts::StepBody>& bodies, parts::StepUnit unit,
                   parts::StepSchema schema) {
  parts::write_step(bodies, path(), unit, schema);
}

StepSource StepFile::import() const {
  StepSource source;
  source.step_file = path();
  return source;
}

}  // namespace crossgrain::testing
