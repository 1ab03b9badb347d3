// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/spdlog.h>

#include <iostream>

#include "tools/commands/commands.h"
#include "tools/results/atomic_file.h"
#include "tools/results/directions_text.h"
#include "tools/story/directions_story.h"

namespace crossgrain {

int directions(const DirectionsOptions& options, const CommonOptions& common) {
  const ReadingUnits units = parse_reading_units(common.units);
  const std::filesystem::path directory = results_directory(options.case_file, options.results);
  require_writable(directory);
  ProgressLine progress(common.quiet);

  PreparedCase prepared = prepare_case(options.case_file, progress);
  const DirectionStory story = directions_story(prepared, common.threads, progress);

  progress.show("writing results");
  const DirectionOutputs outputs{prepared.case_file, prepared.meshed.geometry,
                                 prepared.features,  story.rows,
                                 story.maps,         story.cavity};
  write_directions(outputs, units, directory);
  progress.clear();

  std::cout << (common.json ? directions_json(outputs) : directions_markdown(outputs, units));
  spdlog::info("results are in {}", directory.string());
  return 0;
}

}  // namespace crossgrain
