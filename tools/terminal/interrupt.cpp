// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/terminal/interrupt.h"

#include <unistd.h>

#include <atomic>
#include <csignal>

#include "mesh/worker/worker_cancel.h"

namespace crossgrain {
namespace {

constexpr int kInterruptedStatus = 130;  // 128 + SIGINT, the shell's custom
std::atomic<int> open_sections{0};
std::atomic<bool> signalled{false};
static_assert(std::atomic<int>::is_always_lock_free && std::atomic<bool>::is_always_lock_free,
              "a signal handler may only touch lock-free atomics");

extern "C" void on_signal(int) {
  const bool again = signalled.exchange(true);
  cancel_mesh_worker();
  if (again || open_sections.load() == 0) _exit(kInterruptedStatus);
}

}  // namespace

void catch_interrupts() {
  struct sigaction action {};
  action.sa_handler = on_signal;
  sigemptyset(&action.sa_mask);
  action.sa_flags = SA_RESTART;
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
}

void stop_if_interrupted() {
  if (signalled.load()) throw Interrupted();
}

ClearUpSection::ClearUpSection() { ++open_sections; }
ClearUpSection::~ClearUpSection() { --open_sections; }

}  // namespace crossgrain
