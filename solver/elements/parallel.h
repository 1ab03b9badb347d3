// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tbb/parallel_for.h>

#include <Eigen/Core>
#include <algorithm>
#include <exception>
#include <thread>
#include <vector>

namespace crossgrain {

/// @param threads  wanted; 0: as many as the machine has cores.
inline int thread_count(int threads) {
  return threads > 0 ? threads : std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

/// Call work(begin, end) on consecutive ranges that cover 0..count, one per thread. Work must write
/// only what its own range owns, so that results do not depend on the number of threads.
/// The first range's exception, if any, is thrown on.
template <class Work>
void in_parallel(Eigen::Index count, int threads, const Work& work) {
  const Eigen::Index ranges = std::clamp<Eigen::Index>(thread_count(threads), 1, count + 1);
  if (ranges == 1) {
    work(Eigen::Index{0}, count);
    return;
  }
  std::vector<std::exception_ptr> failures(ranges);
  tbb::parallel_for(
      Eigen::Index{0}, ranges,
      [&](Eigen::Index range) {
        try {
          work(count * range / ranges, count * (range + 1) / ranges);
        } catch (...) {
          failures[range] = std::current_exception();
        }
      },
      tbb::simple_partitioner{});
  for (const auto& failure : failures)
    if (failure) std::rethrow_exception(failure);
}

}  // namespace crossgrain
