// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>

namespace crossgrain {

/// The user pressed Ctrl-C, or the system asked the program to end.
struct Interrupted : std::runtime_error {
  Interrupted() : std::runtime_error("interrupted") {}
};

/// From now on SIGINT and SIGTERM end the program: at once while nothing is at stake, else at the
/// end of the section that has files or a child process to clear away. A second signal ends it at
/// once in any case.
void catch_interrupts();

/// @throws Interrupted if a signal came.
void stop_if_interrupted();

/// While one lives, a signal is kept until what is at stake has been cleared up. A running mesh
/// worker is ended right away, which makes the meshing call throw.
class ClearUpSection {
 public:
  ClearUpSection();
  ~ClearUpSection();
  ClearUpSection(const ClearUpSection&) = delete;
  ClearUpSection& operator=(const ClearUpSection&) = delete;
};

/// Do work that has files or a child process to clear away before a signal may end the program.
/// @throws Interrupted if a signal came, whatever the work then made of it; else what it throws.
template <class Work>
auto cleared_up(const Work& work) {
  auto result = [&work] {
    try {
      const ClearUpSection section;
      return work();
    } catch (...) {
      stop_if_interrupted();
      throw;
    }
  }();
  stop_if_interrupted();
  return result;
}

}  // namespace crossgrain
