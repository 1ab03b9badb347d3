// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "tools/results/hold_interrupts.h"

namespace crossgrain {

/// Refuse a directory that could not be written to, before the work whose results it is to hold.
/// Nothing is left there.
/// @throws std::invalid_argument naming the directory and the reason.
void require_writable(const std::filesystem::path& directory);

/// The message for results that could not be written: the file, the reason and the remedy.
std::string cannot_write(const std::filesystem::path& file, const std::string& why);

/// A set of files that appears in a directory together, complete, or not at all.
/// They are written under a hidden name (inside the directory if it exists, else beside it),
/// flushed to the disk and renamed into place by `publish`. Until then whatever an earlier run left
/// there is untouched; without `publish` nothing stays. Interrupts wait meanwhile.
class StagedFiles {
 public:
  /// @throws std::invalid_argument naming the directory and the reason if it cannot be written to.
  explicit StagedFiles(std::filesystem::path directory);
  ~StagedFiles();
  StagedFiles(const StagedFiles&) = delete;
  StagedFiles& operator=(const StagedFiles&) = delete;

  /// Where to write the file `name` for now; it belongs to the set from here on.
  std::filesystem::path add(const std::string& name);
  /// Where it will be, for messages.
  std::filesystem::path final_path(const std::string& name) const;
  /// Add a file with this content.
  /// @throws std::invalid_argument naming the file and the reason, e.g. a full disk.
  void add_text(const std::string& name, std::string_view text);

  /// Put all files in place, the last added one last, and remove `outdated` ones (plain names;
  /// missing is fine).
  /// @throws std::invalid_argument naming the file and the reason.
  void publish(const std::vector<std::string>& outdated = {});

  const std::vector<std::string>& names() const { return names_; }

 private:
  HoldInterrupts hold_;
  std::filesystem::path directory_;
  std::filesystem::path staging_;
  bool new_directory_;
  std::vector<std::string> names_;
};

/// One file, whole or not at all; an existing one is replaced.
/// @throws std::invalid_argument if its directory cannot be written to or writing fails.
void write_file_atomically(const std::filesystem::path& file, std::string_view text);

}  // namespace crossgrain
