// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/tools/schema.h"

#include <cstdlib>
#include <fstream>

#include "tests/tools/synthetic_run.h"

namespace crossgrain::testing {

bool fits_schema(const std::filesystem::path& file, const std::string& schema) {
  const std::string source = CROSSGRAIN_SOURCE_DIR;
  const std::string command = std::string(CROSSGRAIN_PYTHON) + " '" + source +
                              "/tests/tools/validate_json.py' '" + source + "/tools/results/" +
                              schema + "' '" + file.string() + "'";
  return std::system(command.c_str()) == 0;
}

bool fits_schema(const nlohmann::json& document, const std::string& schema) {
  const std::filesystem::path file = empty_directory("schema") / "document.json";
  std::ofstream(file) << document.dump();
  return fits_schema(file, schema);
}

}  // namespace crossgrain::testing
