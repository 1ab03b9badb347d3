// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/spdlog.h>

#include <iostream>
#include <stdexcept>

#include "cases/case_file/case_sources.h"
#include "cases/starter/meeting_words.h"
#include "mesh/geometry/geometry_words.h"
#include "mesh/meshing.h"
#include "tools/commands/commands.h"
#include "tools/listings/faces_page.h"
#include "tools/listings/geometry_text.h"
#include "tools/results/atomic_file.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

WettedSurface wetted_from(const Geometry& geometry, const InspectOptions& options) {
  const Eigen::Vector3d point(options.fluid_at[0], options.fluid_at[1], options.fluid_at[2]);
  std::vector<FloodStop> stops;
  for (const int stop : options.stops) {
    if (stop < 1 || static_cast<std::size_t>(stop) > geometry.faces.size()) {
      throw std::invalid_argument("--stop " + std::to_string(stop) + ": faces are numbered 1 to " +
                                  std::to_string(geometry.faces.size()));
    }
    stops.push_back({"stop at face " + std::to_string(stop), {FaceId{stop}}});
  }
  return flood(geometry, face_seen_from(geometry, point), stops);
}

ImportOptions import_of(const InspectOptions& options) {
  if (options.part.extension() != ".toml")
    return StepSource{.step_file = options.part, .scale = options.scale};
  if (options.scale != 1.0)
    throw std::invalid_argument("--scale " + words(options.scale) +
                                ": goes with a STEP file; in a case file write scale in [[body]]");
  return import_options(read_bodies_of_case(options.part));
}

}  // namespace

int inspect(const InspectOptions& options, const CommonOptions& common) {
  Inspection inspection;
  inspection.file = options.part.string();
  inspection.geometry = cleared_up([&] { return import_step(import_of(options)); });
  inspection.features = find_features(inspection.geometry);
  inspection.touching = find_touching_faces(inspection.geometry, gasket_room);
  inspection.cavities = closed_cavities(inspection.geometry);
  if (!options.fluid_at.empty()) {
    inspection.wetted = wetted_from(inspection.geometry, options);
  }
  if (!options.page.empty()) {
    write_file_atomically(options.page, faces_page(inspection));
    spdlog::info("the page to click faces on is {}", options.page.string());
  }
  std::cout << (common.json ? geometry_json(inspection) : geometry_text(inspection));
  return 0;
}

}  // namespace crossgrain
