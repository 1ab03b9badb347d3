// SPDX-License-Identifier: GPL-3.0-or-later
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepPrimAPI_MakeBox.hxx>

#include "tools/parts/demo_parts.h"
#include "tools/parts/revolved_profile.h"

namespace crossgrain::parts {

// Drawn in inches: 4.5 x 1.5 x 1.5, gallery 5/8, taps 3/8, mounting holes 1/4 with 7/16
// counterbores.
std::vector<StepBody> manifold_block() {
  constexpr double inch = 25.4;
  TopoDS_Shape block = BRepPrimAPI_MakeBox(4.5 * inch, 1.5 * inch, 1.5 * inch).Shape();
  const auto cut = [&block](const TopoDS_Shape& tool) {
    block = BRepAlgoAPI_Cut(block, tool).Shape();
  };
  cut(rod(0, 0.75 * inch, 0.65 * inch, 1, 0, 0, 0.625 * inch, 4.1 * inch));
  for (const double x : {0.9, 1.8, 2.7, 3.6})
    cut(rod(x * inch, 0.75 * inch, 1.5 * inch, 0, 0, -1, 0.375 * inch, 0.85 * inch));
  for (const double x : {0.3, 4.2}) {
    cut(rod(x * inch, 0.2 * inch, 1.5 * inch, 0, 0, -1, 0.25 * inch, 1.5 * inch));
    cut(rod(x * inch, 0.2 * inch, 1.5 * inch, 0, 0, -1, 0.4375 * inch, 0.25 * inch));
  }
  block = only_solid(block);
  return {{block,
           "manifold",
           Colour{0.70, 0.70, 0.60},
           {{face_at(block, {0, 1.4 * inch, 1.4 * inch}), "inlet face", Colour{0.20, 0.45, 0.80}},
            {face_at(block, {2.25 * inch, 0.1 * inch, 1.5 * inch}), "tap face", std::nullopt}}}};
}

}  // namespace crossgrain::parts
