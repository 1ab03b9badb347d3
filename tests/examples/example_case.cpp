// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/examples/example_case.h"

#include <algorithm>
#include <stdexcept>

namespace crossgrain::testing {
namespace {

namespace fs = std::filesystem;

const fs::path examples = fs::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples";

std::vector<std::string> names_in(const fs::path& directory) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(directory))
    names.push_back(entry.path().filename());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

std::vector<std::string> example_names() { return names_in(examples); }

fs::path example_file(const std::string& name, const std::string& ending) {
  return examples / name / (name + "." + ending);
}

std::string replaced(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos)
    throw std::logic_error("the text does not hold this exactly once: " + from);
  return std::string(text).replace(at, from.size(), to);
}

ExampleCopy::ExampleCopy(const std::string& name) : name_(name) {
  fs::copy_file(example_file(name, "step"), directory() / (name + ".step"));
  const std::string text = content_of(example_file(name, "toml"));
  if (text.find("[mesh]") != std::string::npos)
    throw std::logic_error(name + " brings a [mesh] of its own: give it a coarse one here");
  write_case(text + coarse_mesh);
}

std::vector<std::string> ExampleCopy::entries() const { return names_in(directory()); }

}  // namespace crossgrain::testing
