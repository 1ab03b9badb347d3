// SPDX-License-Identifier: GPL-3.0-or-later
#include <BRepAlgoAPI_Cut.hxx>

#include "tools/parts/demo_parts.h"
#include "tools/parts/revolved_profile.h"

namespace crossgrain::parts {

// The underside is z = 0; it rests on a seal ring between radii 70 and 78. The hose port is the
// boss on top.
std::vector<StepBody> vacuum_lid() {
  const TopoDS_Shape turned = revolved_profile(
      {{0, 0}, {70, 0}, {78, 0}, {85, 0}, {85, 12, 3}, {12, 12, 4}, {12, 32, 1}, {0, 32}});
  const TopoDS_Shape lid =
      only_solid(BRepAlgoAPI_Cut(turned, rod(0, 0, -1, 0, 0, 1, 9.0, 40.0)).Shape());
  return {{lid,
           "lid",
           Colour{0.85, 0.85, 0.88},
           {{face_at(lid, {74, 0, 0}), "seal ring", Colour{0.85, 0.45, 0.10}},
            {face_at(lid, {8, 0, 32}), "hose end", std::nullopt}}}};
}

}  // namespace crossgrain::parts
