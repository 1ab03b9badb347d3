// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/hold_interrupts.h"

#include <cassert>

namespace crossgrain {
namespace {

volatile sig_atomic_t held_signal = 0;
bool holding = false;

extern "C" void remember_signal(int signal) { held_signal = signal; }

}  // namespace

HoldInterrupts::HoldInterrupts() {
  assert(!holding);
  holding = true;
  held_signal = 0;
  struct sigaction wait = {};
  wait.sa_handler = remember_signal;
  // Without SA_RESTART a write under way would fail with EINTR for no reason.
  wait.sa_flags = SA_RESTART;
  for (int i = 0; i < 4; ++i) {
    struct sigaction ignore = {};
    ignore.sa_handler = SIG_IGN;
    sigaction(signals[i], signals[i] == SIGXFSZ ? &ignore : &wait, &before_[i]);
    // A program started with nohup ignores SIGHUP and must go on doing so.
    if (before_[i].sa_handler == SIG_IGN) sigaction(signals[i], &before_[i], nullptr);
  }
}

HoldInterrupts::~HoldInterrupts() {
  for (int i = 0; i < 4; ++i) sigaction(signals[i], &before_[i], nullptr);
  holding = false;
  if (held_signal != 0) raise(held_signal);
}

}  // namespace crossgrain
