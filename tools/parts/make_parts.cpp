// SPDX-License-Identifier: GPL-3.0-or-later
// Usage: crossgrain_make_parts CASES_DIRECTORY writes the STEP files of the examples.
#include <exception>
#include <filesystem>
#include <iostream>

#include "tools/parts/demo_parts.h"

int main(int argc, char** argv) try {
  using namespace crossgrain::parts;
  if (argc != 2) {
    std::cerr << "usage: crossgrain_make_parts CASES_DIRECTORY\n";
    return 2;
  }
  const std::filesystem::path cases(argv[1]);
  const auto write = [&cases](const char* name, const std::vector<StepBody>& bodies, StepUnit unit,
                              StepSchema schema) {
    std::filesystem::create_directories(cases / name);
    write_step(bodies, cases / name / (std::string(name) + ".step"), unit, schema);
  };
  write("filter-bowl", {filter_housing().front()}, StepUnit::millimetre, StepSchema::AP214);
  write("filter-housing", filter_housing(), StepUnit::millimetre, StepSchema::AP214);
  write("pipe-tee", pipe_tee(), StepUnit::millimetre, StepSchema::AP242);
  write("manifold-block", manifold_block(), StepUnit::inch, StepSchema::AP203);
  write("vacuum-lid", vacuum_lid(), StepUnit::metre, StepSchema::AP214);
  return 0;
} catch (const std::exception& error) {
  std::cerr << "crossgrain_make_parts: " << error.what() << '\n';
  return 3;
}
