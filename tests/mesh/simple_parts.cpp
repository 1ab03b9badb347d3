// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/mesh/simple_parts.h"

#include <BRepAlgoAPI_Cut.hxx>
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

StepFile::StepFile(const std::vector<parts::StepBody>& bodies) {
  parts::write_step(bodies, path());
}

ImportOptions StepFile::import() const {
  ImportOptions options;
  options.step_file = path();
  return options;
}

}  // namespace crossgrain::testing
