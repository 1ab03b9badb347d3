// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/resource.h>

#include <chrono>

namespace crossgrain::bench {

/// Of a clock that only runs forward.
inline double seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// Spent by this process so far, on all processors.
inline double processor_seconds() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
         1e-6 * static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

/// On a machine that others use, too, the processor's seconds say more than the clock.
struct Times {
  double wall = 0.0, processor = 0.0;
};

template <class Work>
Times time_of(const Work& work) {
  const double wall = seconds(), processor = processor_seconds();
  work();
  return {seconds() - wall, processor_seconds() - processor};
}

}  // namespace crossgrain::bench
