// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/spdlog.h>

#include <iostream>
#include <stdexcept>

#include "cases/starter/starter_case.h"
#include "materials/card_file/card.h"
#include "mesh/meshing.h"
#include "tools/commands/commands.h"
#include "tools/results/atomic_file.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {

int begin(const BeginOptions& options, const CommonOptions&) {
  const std::filesystem::path case_file =
      options.case_file.empty()
          ? std::filesystem::path(options.step_file).replace_extension(".toml")
          : options.case_file;
  if (std::filesystem::exists(case_file)) {
    throw std::invalid_argument(
        case_file.string() +
        " exists and is not overwritten: name another with -o, or move it away");
  }
  find_card(options.card,
            std::filesystem::current_path());  // refuse an unknown card before the work
  const Geometry geometry =
      cleared_up([&] { return import_step(StepSource{.step_file = options.step_file}); });
  const auto step_from_case = std::filesystem::proximate(
      options.step_file,
      case_file.has_parent_path() ? case_file.parent_path() : std::filesystem::path("."));
  write_file_atomically(case_file, starter_case(geometry, find_features(geometry),
                                                step_from_case.string(), options.card));
  for (const std::string& warning : geometry.warnings) spdlog::warn("{}", warning);
  std::cout << case_file.string()
            << " written. Read it through: lines marked \"check this\" are guesses.\n"
            << "Then: crossgrain run " << case_file.string() << '\n';
  return 0;
}

}  // namespace crossgrain
