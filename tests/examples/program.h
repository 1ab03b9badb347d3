// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace crossgrain::testing {

/// What an ended program leaves.
struct Ended {
  int status;  ///< exit status, or minus the number of the signal that killed it
  std::string out;
  std::string err;
};

/// Where and how a program runs.
struct Surroundings {
  std::filesystem::path directory;                ///< current and temporary one
  std::optional<std::size_t> largest_file = {};   ///< [bytes] writing more fails as on a full disk
  std::optional<std::filesystem::path> out = {};  ///< standard output goes there instead
  std::filesystem::path program = CROSSGRAIN_PROGRAM;
};

/// A running program that leads a process group of its own, as a shell starts it. Killed with its
/// group if nobody waits for it.
class Program {
 public:
  Program(const std::vector<std::string>& arguments, const Surroundings& surroundings);
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  pid_t pid() const { return pid_; }
  /// The processes it started that still run.
  std::vector<pid_t> children() const;
  /// Whether any process of its group is left, itself included.
  bool group_lives() const;
  /// Wait for its end.
  Ended end();

 private:
  std::filesystem::path log_;  ///< directory of its captured streams
  pid_t pid_ = -1;
  bool ended_ = false;
};

/// Run the program to its end.
Ended crossgrain(const std::vector<std::string>& arguments, const Surroundings& surroundings);

/// The whole content of a file; empty if there is none.
std::string content_of(const std::filesystem::path& file);

/// Whether a text for reading holds a number with an exponent, which nobody in a workshop reads.
bool holds_exponent(const std::string& text);

/// Whether a text holds a part; says what the text is if not.
bool holds(const std::string& text, const std::string& part);

}  // namespace crossgrain::testing
