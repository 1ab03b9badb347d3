// SPDX-License-Identifier: GPL-3.0-or-later
#include <iostream>

#include "mesh/meshing.h"
#include "tools/commands/commands.h"
#include "tools/interrupt.h"
#include "tools/listings/geometry_text.h"

namespace crossgrain {

int inspect(const InspectOptions& options, const CommonOptions& common) {
  Inspection inspection;
  {
    const ClearUpSection section;
    inspection.geometry =
        import_step({.step_file = options.step_file, .scale = options.scale, .bodies = {}});
  }
  stop_if_interrupted();
  inspection.features = find_features(inspection.geometry);
  inspection.cavities = closed_cavities(inspection.geometry);
  std::cout << (common.json ? geometry_json(inspection) : geometry_text(inspection));
  return 0;
}

}  // namespace crossgrain
