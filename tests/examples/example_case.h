// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tests/examples/program.h"
#include "tests/support/temporary_file.h"

namespace crossgrain::testing {

/// The names of the folders under cases/examples, sorted.
std::vector<std::string> example_names();

/// The path of an example's file with this ending: "step", "toml".
std::filesystem::path example_file(const std::string& name, const std::string& ending);

/// A text in which `from`, which must stand in it exactly once, is replaced.
std::string replaced(const std::string& text, const std::string& from, const std::string& to);

/// The [mesh] table of a case that is to be quick: as coarse as the parts' curves allow. It ends a
/// file, so that further keys of the table may follow.
inline constexpr const char* coarse_mesh =
    "\n[mesh]\nlayers = 1\nelements_per_turn = 6\nsize = \"25 mm\"\nsize_min = \"4 mm\"\n";

/// An example as a user would copy it: its STEP file and its case, on a coarse mesh to be quick, in
/// a directory that goes with this object.
class ExampleCopy {
 public:
  explicit ExampleCopy(const std::string& name);

  const std::filesystem::path& directory() const { return directory_.path(); }
  std::string case_name() const { return name_ + ".toml"; }
  std::string case_text() const { return content_of(directory() / case_name()); }
  void write_case(const std::string& text) const { directory_.file(case_name(), text); }
  /// What lies in the directory, sorted.
  std::vector<std::string> entries() const;
  Ended run(const std::vector<std::string>& arguments) const {
    return crossgrain(arguments, {.directory = directory()});
  }

 private:
  std::string name_;
  TemporaryDirectory directory_;
};

}  // namespace crossgrain::testing
