// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "materials/card_file/card.h"
#include "materials/units/nearest_name.h"

namespace crossgrain {
namespace {

namespace fs = std::filesystem;

/// The installed cards, seen from the running program.
fs::path installed_cards() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  return error ? fs::path() : (program.parent_path() / CROSSGRAIN_CARDS_FROM_PROGRAM);
}

std::string joined(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return list;
}

}  // namespace

fs::path card_directory() {
  if (const char* chosen = std::getenv("CROSSGRAIN_CARDS"); chosen != nullptr && *chosen != '\0') {
    if (!fs::is_directory(chosen))
      throw std::invalid_argument("CROSSGRAIN_CARDS = \"" + std::string(chosen) +
                                  "\" is not a directory");
    return chosen;
  }
  const fs::path installed = installed_cards();
  for (const fs::path& directory : {installed, fs::path(CROSSGRAIN_SOURCE_CARDS)})
    if (!directory.empty() && fs::is_directory(directory)) return fs::weakly_canonical(directory);
  throw std::runtime_error("the material cards are missing from " +
                           installed.lexically_normal().string() +
                           "; install the program again or set CROSSGRAIN_CARDS");
}

std::vector<std::string> known_cards() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(card_directory()))
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

MaterialCard find_card(const std::string& name_or_path, const fs::path& beside) {
  const fs::path path(name_or_path);
  if (path.extension() == ".toml" || path.has_parent_path()) return read_card(beside / path);

  const std::vector<std::string> known = known_cards();
  if (std::find(known.begin(), known.end(), name_or_path) == known.end())
    throw std::invalid_argument("unknown material card \"" + name_or_path + "\"" +
                                did_you_mean(name_or_path, known) + "; known are " + joined(known) +
                                "; a card of your own is named by its path, \"my-card.toml\"");
  return read_card(card_directory() / (name_or_path + ".toml"));
}

}  // namespace crossgrain
