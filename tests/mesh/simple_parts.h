// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

#include "mesh/meshing.h"
#include "tests/support/temporary_file.h"
#include "tools/parts/step_writer.h"

namespace crossgrain::testing {

TopoDS_Shape block(double x, double y, double z, double low_x = 0, double low_y = 0,
                   double low_z = 0);
TopoDS_Shape ball(double radius);
/// Along z from z = 0, outer and inner radius.
TopoDS_Shape tube(double outer, double inner, double length);

/// A STEP file that is deleted with this object.
class StepFile {
 public:
  explicit StepFile(const std::vector<parts::StepBody>& bodies);
  explicit StepFile(const TopoDS_Shape& shape) : StepFile({{shape, "part", {}, {}}}) {}

  ImportOptions import() const;
  std::filesystem::path path() const { return directory_.path() / "part.step"; }

 private:
  TemporaryDirectory directory_;
};

}  // namespace crossgrain::testing
