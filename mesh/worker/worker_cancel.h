// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

namespace crossgrain {

/// Registers a job's children, so that a signal handler can end them. One per job, for its whole
/// length: a cancellation between two children is not lost.
class Cancellable {
 public:
  Cancellable();
  ~Cancellable();
  Cancellable(const Cancellable&) = delete;
  Cancellable& operator=(const Cancellable&) = delete;

  /// The child that now runs; ended at once if the job has been cancelled meanwhile.
  void started(pid_t child);
  /// Call while the child is ended but not yet reaped, so that no later process gets the signal.
  void ended();
  bool cancelled() const;

 private:
  int slot_;
};

/// Ends a running child; safe in a signal handler.
void cancel_mesh_worker() noexcept;

}  // namespace crossgrain
