// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/commands/options.h"

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <cmath>
#include <iostream>

namespace crossgrain {
namespace {

constexpr const char* kStatusHelp =
    "Exit status: 0 pass; 1 marginal or fail; 2 the input is at fault; 3 the program failed;\n"
    "4 the answer is not to be trusted.";

/// CLI11 itself takes "nan" and "inf" for numbers.
/// @return what is wrong, empty if nothing.
std::string finite_number(const std::string& text) {
  double value = 0.0;
  const bool finite = CLI::detail::lexical_cast(text, value) && std::isfinite(value);
  return finite ? "" : "\"" + text + "\" is not a finite number";
}

void add_common(CLI::App& command, CommonOptions& common) {
  command.add_flag("--json", common.json, "print the result as JSON on standard output");
  command.add_flag("-q,--quiet", common.quiet, "no progress, only warnings and errors");
  command.add_option("--threads", common.threads, "threads to use; 0: all cores")
      ->check(CLI::Range(0, 1024));
  command.add_option("--units", common.units, "pressure unit for reading: MPa, bar or psi")
      ->check(CLI::IsMember({"MPa", "bar", "psi"}));
}

void add_inspect(CLI::App& app, CommonOptions& common, InspectOptions& options, Command& chosen) {
  auto* command =
      app.add_subcommand("inspect", "list a STEP file's bodies, faces, holes, cavities");
  command->add_option("PART", options.part, "STEP file, or a case file: its bodies in their places")
      ->required();
  command->add_option("--scale", options.scale, "multiply all lengths, for a file in wrong units")
      ->check(finite_number)
      ->check(CLI::PositiveNumber);
  auto* point = command
                    ->add_option("--fluid-at", options.fluid_at,
                                 "x y z in mm of a point in a fluid: list the faces it wets")
                    ->expected(3)
                    ->check(finite_number);
  command
      ->add_option("--stop", options.stops,
                   "numbers of faces that the fluid does not enter: at ports, at a seal line")
      ->needs(point);
  command->add_option("--page", options.page,
                      "HTML file to write: a page to click faces on; an existing one is replaced");
  add_common(*command, common);
  command->callback([&] { chosen = options; });
}

void add_begin(CLI::App& app, CommonOptions& common, BeginOptions& options, Command& chosen) {
  auto* command = app.add_subcommand("begin", "write a commented starter case for a STEP file");
  command->add_option("PART", options.step_file, "STEP file")->required();
  command->add_option("-o,--output", options.case_file, "case file to write; never overwritten");
  command->add_option("--material", options.card, "material card to start with");
  add_common(*command, common);
  command->callback([&] { chosen = options; });
}

template <class Options>
void add_case_command(CLI::App& app, const char* name, const char* what, CommonOptions& common,
                      Options& options, Command& chosen) {
  auto* command = app.add_subcommand(name, what);
  command->add_option("CASE", options.case_file, "case file")->required();
  command->add_option("-o,--output", options.results, "directory for the results");
  command->footer(kStatusHelp);
  add_common(*command, common);
  command->callback([&] { chosen = options; });
}

void add_material(CLI::App& app, CommonOptions& common, MaterialOptions& options, Command& chosen) {
  auto* command = app.add_subcommand("material", "list the material cards, or show and check one");
  command->add_option("CARD", options.card, "name of a card, or path of your own");
  add_common(*command, common);
  command->callback([&] { chosen = options; });
}

void add_compare(CLI::App& app, CommonOptions& common, CompareOptions& options, Command& chosen) {
  auto* command = app.add_subcommand("compare", "two finished runs side by side");
  command->add_option("RUN_A", options.run_a, "results directory of a run")->required();
  command->add_option("RUN_B", options.run_b, "results directory of another")->required();
  add_common(*command, common);
  command->callback([&] { chosen = options; });
}

}  // namespace

std::variant<CommandLine, int> parse_command_line(int argc, char** argv) {
  CLI::App app("Will this printed, pressure-carrying part hold?", "crossgrain");
  app.set_version_flag("--version", std::string("crossgrain ") + CROSSGRAIN_VERSION);
  app.require_subcommand(1);
  app.footer(kStatusHelp);

  CommandLine line;
  InspectOptions inspect;
  BeginOptions begin;
  RunOptions run;
  DirectionsOptions directions;
  MaterialOptions material;
  CompareOptions compare;
  add_inspect(app, line.common, inspect, line.command);
  add_begin(app, line.common, begin, line.command);
  add_case_command(app, "run", "the main job: will the part of this case hold?", line.common, run,
                   line.command);
  add_case_command(app, "directions",
                   "compare the print directions that the case names, or map all of them",
                   line.common, directions, line.command);
  add_material(app, line.common, material, line.command);
  add_compare(app, line.common, compare, line.command);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error, std::cout, std::cerr) == 0 ? 0 : 2;
  }
  return line;
}

}  // namespace crossgrain
