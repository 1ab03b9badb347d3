// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <filesystem>
#include <string>
#include <vector>

#include "mesh/meshing.h"
#include "tests/support/temporary_file.h"
#include "tools/parts/revolved_profile.h"
#include "tools/parts/step_writer.h"

namespace crossgrain::testing {

TopoDS_Shape block(double x, double y, double z, double low_x = 0, double low_y = 0,
                   double low_z = 0);
TopoDS_Shape ball(double radius);
/// Along z from z = 0, outer and inner radius.
TopoDS_Shape tube(double outer, double inner, double length);

/// A bar of material or, to cut with, a drill: from a point along an axis [mm].
inline TopoDS_Shape rod(const Eigen::Vector3d& from, const Eigen::Vector3d& axis, double diameter,
                        double length) {
  return parts::rod(from.x(), from.y(), from.z(), axis.x(), axis.y(), axis.z(), diameter, length);
}
/// The solid left of a part.
TopoDS_Shape cut(TopoDS_Shape part, const std::vector<TopoDS_Shape>& tools);
/// The solid of a part and what is added to it.
TopoDS_Shape fuse(TopoDS_Shape part, const std::vector<TopoDS_Shape>& more);

/// A STEP file that is deleted with this object.
class StepFile {
 public:
  explicit StepFile(const std::vector<parts::StepBody>& bodies,
                    parts::StepUnit unit = parts::StepUnit::millimetre,
                    parts::StepSchema schema = parts::StepSchema::AP214);
  explicit StepFile(const TopoDS_Shape& shape) : StepFile({{shape, "part", {}, {}}}) {}

  StepSource import() const;
  std::filesystem::path path() const { return directory_.path() / "part.step"; }

 private:
  TemporaryDirectory directory_;
};

}  // namespace crossgrain::testing
