// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <signal.h>

namespace crossgrain {

/// While one lives, an interrupt (Ctrl-C, a polite kill, a closed terminal) waits, so that files
/// are either whole or gone when it takes effect. Passing a file-size limit becomes a write error
/// instead of the program's end. At the end the earlier handlers are put back and an interrupt that
/// came meanwhile is raised again. One at a time; not for long work, as Ctrl-C seems dead
/// meanwhile.
class HoldInterrupts {
 public:
  HoldInterrupts();
  ~HoldInterrupts();
  HoldInterrupts(const HoldInterrupts&) = delete;
  HoldInterrupts& operator=(const HoldInterrupts&) = delete;

 private:
  static constexpr int signals[] = {SIGINT, SIGTERM, SIGHUP, SIGXFSZ};
  struct sigaction before_[4];
};

}  // namespace crossgrain
