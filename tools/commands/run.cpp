// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/spdlog.h>

#include <iostream>

#include "tools/commands/commands.h"
#include "tools/results/atomic_file.h"
#include "tools/results/summary_json.h"
#include "tools/results/summary_text.h"
#include "tools/results/write_results.h"
#include "tools/story/cavity.h"
#include "tools/story/run_story.h"

namespace crossgrain {
namespace {

int exit_status(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return 0;
    case Verdict::marginal:
    case Verdict::fail:
      return 1;
    case Verdict::not_trusted:
      break;
  }
  return 4;
}

}  // namespace

std::filesystem::path results_directory(const std::filesystem::path& case_file,
                                        const std::optional<std::filesystem::path>& asked) {
  if (asked) return *asked;
  return case_file.stem().string() + "-results";
}

int run(const RunOptions& options, const CommonOptions& common) {
  const ReadingUnits units = parse_reading_units(common.units);
  const std::filesystem::path directory = results_directory(options.case_file, options.results);
  require_writable(directory);
  ProgressLine progress(common.quiet);

  PreparedCase prepared = prepare_case(options.case_file, progress);
  const RunResult result = run_story(prepared, common.threads, progress);

  progress.show("writing results");
  const std::vector<FaceId> cavity = cavity_faces(prepared);
  const RunOutputs outputs{
      result,         prepared.case_file,    prepared.meshed, prepared.features,
      prepared.field, prepared.sites.points, cavity};
  write_results(outputs, units, directory);
  progress.clear();

  std::cout << (common.json ? summary_json(outputs) : summary_text(outputs, units));
  spdlog::info("results are in {}", directory.string());
  return exit_status(result.verdict);
}

}  // namespace crossgrain
