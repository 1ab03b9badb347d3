// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_cancel.h"

#include <array>
#include <atomic>
#include <csignal>
#include <stdexcept>

namespace crossgrain {
namespace {

// All that the signal handler touches: lock-free and never freed.
struct Slot {
  std::atomic<bool> taken{false};
  std::atomic<bool> cancelled{false};
  std::atomic<pid_t> child{0};
};
static_assert(std::atomic<pid_t>::is_always_lock_free && std::atomic<bool>::is_always_lock_free);

std::array<Slot, 64> slots;

}  // namespace

Cancellable::Cancellable() {
  for (std::size_t i = 0; i < slots.size(); ++i) {
    bool expected = false;
    if (slots[i].taken.compare_exchange_strong(expected, true)) {
      slots[i].child = 0;
      slots[i].cancelled = false;
      slot_ = static_cast<int>(i);
      return;
    }
  }
  throw std::runtime_error("more than 64 meshing jobs at once in one program");
}

Cancellable::~Cancellable() {
  slots[slot_].child = 0;
  slots[slot_].taken = false;
}

void Cancellable::started(pid_t child) {
  slots[slot_].child = child;
  if (slots[slot_].cancelled) kill(child, SIGKILL);
}

void Cancellable::ended() { slots[slot_].child = 0; }

bool Cancellable::cancelled() const { return slots[slot_].cancelled; }

void cancel_mesh_worker() noexcept {
  for (Slot& slot : slots) {
    if (!slot.taken) continue;
    slot.cancelled = true;
    const pid_t child = slot.child;
    if (child > 0) kill(child, SIGKILL);
  }
}

}  // namespace crossgrain
