// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

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
  std::vector<std::exception_ptr> failures(ranges);
#pragma omp parallel for schedule(static, 1) num_threads(static_cast <int>(ranges))
  for (Eigen::Index range = 0; range < ranges; ++range) {
    try {
      work(count * range / ranges, count * (range + 1) / ranges);
    } catch (...) {
      failures[range] = std::current_exception();
    }
  }
  for (const auto& failure : failures)
    if (failure) std::rethrow_exception(failure);
}

}  // namespace crossgrain
