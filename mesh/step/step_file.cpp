// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/step_file.h"

#include <algorithm>
#include <fstream>
#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& why) {
  throw std::invalid_argument(file.string() + ": " + why);
}

std::string read_part(std::ifstream& stream, std::streamoff from, std::size_t length) {
  std::string text(length, '\0');
  stream.clear();
  stream.seekg(from);
  stream.read(text.data(), static_cast<std::streamsize>(length));
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return text;
}

}  // namespace

void check_step_file(const std::filesystem::path& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) {
    refuse(file, "no such file; give the path of a STEP file (.step or .stp)");
  }
  if (std::filesystem::is_directory(status)) {
    refuse(file, "is a directory; give the path of a STEP file (.step or .stp) in it");
  }
  std::ifstream stream(file, std::ios::binary);
  if (!stream) {
    refuse(file, "cannot be opened for reading; check its permissions");
  }
  const auto size = static_cast<std::streamoff>(std::filesystem::file_size(file, error));
  if (error || size == 0) {
    refuse(file, "is empty; export the part as STEP again");
  }
  constexpr std::streamoff window = 4096;
  // Comments may come before the first keyword, so look for it rather than at it.
  if (read_part(stream, 0, window).find("ISO-10303-21") == std::string::npos) {
    refuse(file,
           "is not a STEP file (no ISO-10303-21 at its beginning); export the part as STEP AP203, "
           "AP214 or AP242, not as a mesh or a drawing");
  }
  const std::string tail = read_part(stream, std::max<std::streamoff>(0, size - window), window);
  if (tail.find("END-ISO-10303-21") == std::string::npos) {
    refuse(
        file,
        "is cut short (no END-ISO-10303-21 at its end); copy or download it again, or export the "
        "part anew");
  }
}

}  // namespace crossgrain
