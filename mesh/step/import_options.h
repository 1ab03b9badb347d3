// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace crossgrain {

/// Where a STEP file comes from and how it is read.
struct ImportOptions {
  std::filesystem::path step_file;
  double scale = 1.0;
  /// Names of the solids to model; empty: all. The others keep their ids but are not modelled.
  /// A name that no solid has, or that several have, is an error that lists the names there are.
  std::vector<std::string> bodies;
};

}  // namespace crossgrain
