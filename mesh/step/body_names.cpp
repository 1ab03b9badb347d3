// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/body_names.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

namespace crossgrain {
namespace {

std::string stem_of(const ReadFile& file) {
  return std::filesystem::path(file.path).stem().string();
}

/// The file's stem, with a number where an earlier file has the same.
std::string label_of(const Geometry& geometry, std::size_t file) {
  const std::string stem = stem_of(geometry.files[file]);
  const auto end = geometry.files.begin() + static_cast<std::ptrdiff_t>(file);
  const auto earlier = std::count_if(geometry.files.begin(), end,
                                     [&](const ReadFile& other) { return stem_of(other) == stem; });
  return earlier == 0 ? stem : stem + "-" + std::to_string(earlier + 1);
}

std::string names_in(const Geometry& geometry, std::size_t file) {
  std::string names;
  for (const Body& body : geometry.bodies) {
    if (body.file != file) continue;
    names += (names.empty() ? "\"" : ", \"") + body.name_in_file + "\"";
  }
  return names;
}

}  // namespace

void tell_names_apart(Geometry& geometry) {
  if (geometry.files.size() < 2) return;
  for (Body& body : geometry.bodies) {
    const auto count = [&](const auto& alike) {
      return std::count_if(geometry.bodies.begin(), geometry.bodies.end(), alike);
    };
    const std::string& name = body.name_in_file;
    if (name.empty()) {
      const auto of_file = count([&](const Body& other) { return other.file == body.file; });
      if (of_file == 1) body.name = label_of(geometry, body.file);
    } else if (count([&](const Body& other) {
                 return other.modelled && other.file != body.file && other.name_in_file == name;
               }) > 0) {
      body.name = label_of(geometry, body.file) + "/" + name;
    }
  }
}

void choose_modelled(Geometry& geometry, std::size_t file, const std::vector<std::string>& wanted) {
  if (wanted.empty()) return;
  for (Body& body : geometry.bodies) body.modelled = body.modelled && body.file != file;
  const std::string& path = geometry.files[file].path;
  for (const std::string& name : wanted) {
    Body* chosen = nullptr;
    for (Body& body : geometry.bodies) {
      if (body.file != file || body.name_in_file != name) continue;
      if (chosen)
        throw std::invalid_argument(path + ": several bodies are named \"" + name +
                                    "\"; give them names of their own in CAD (the bodies are " +
                                    names_in(geometry, file) + ")");
      chosen = &body;
    }
    if (!chosen)
      throw std::invalid_argument(path + ": no body is named \"" + name + "\"; the bodies are " +
                                  names_in(geometry, file));
    chosen->modelled = true;
  }
}

}  // namespace crossgrain
