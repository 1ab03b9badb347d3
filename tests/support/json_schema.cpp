// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/json_schema.h"

#include <cstdlib>

#include "tests/support/temporary_file.h"

namespace crossgrain::testing {

bool fits_schema(const std::filesystem::path& file, const std::string& schema) {
  const std::string source = CROSSGRAIN_SOURCE_DIR;
  const std::string command = std::string(CROSSGRAIN_PYTHON) + " '" + source +
                              "/tests/support/validate_json.py' '" + source + "/tools/results/" +
                              schema + "' '" + file.string() + "'";
  return std::system(command.c_str()) == 0;
}

bool fits_schema(const nlohmann::json& document, const std::string& schema) {
  const TemporaryDirectory directory;
  return fits_schema(directory.file("document.json", document.dump()), schema);
}

}  // namespace crossgrain::testing
