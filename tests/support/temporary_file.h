// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace crossgrain::testing {

/// A directory of its own that goes when the test ends.
class TemporaryDirectory {
 public:
  TemporaryDirectory() {
    std::string pattern = (std::filesystem::temp_directory_path() / "crossgrain-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary directory");
    path_ = pattern;
  }
  ~TemporaryDirectory() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryDirectory(const TemporaryDirectory&) = delete;
  TemporaryDirectory& operator=(const TemporaryDirectory&) = delete;

  const std::filesystem::path& path() const { return path_; }

  /// Write a file and return its path.
  std::filesystem::path file(const std::string& name, const std::string& content) const {
    const std::filesystem::path written = path_ / name;
    std::ofstream(written, std::ios::binary) << content;
    return written;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace crossgrain::testing
