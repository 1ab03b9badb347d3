// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <exception>
#include <thread>
#include <vector>

namespace crossgrain {

/// Into how many parts work over `count` items is cut.
/// @param threads  0: as many as the machine has.
inline int parts_of(Eigen::Index count, int threads) {
  constexpr Eigen::Index smallest_part = 2000;  // below this a thread costs more than it saves
  const Eigen::Index wanted = threads > 0 ? threads : std::thread::hardware_concurrency();
  return static_cast<int>(
      std::clamp<Eigen::Index>(count / smallest_part, 1, std::max<Eigen::Index>(wanted, 1)));
}

/// Call work(part, begin, end) for the parts of [0, count), each on a thread of its own; an
/// exception of any part is thrown again here.
template <typename Work>
void in_parallel(Eigen::Index count, int threads, const Work& work) {
  const int parts = parts_of(count, threads);
  std::vector<std::exception_ptr> failures(parts);
  std::vector<std::jthread> crew;
  for (int part = 0; part < parts; ++part) {
    const auto run = [&, part] {
      try {
        work(part, count * part / parts, count * (part + 1) / parts);
      } catch (...) {
        failures[part] = std::current_exception();
      }
    };
    if (part + 1 < parts) {
      crew.emplace_back(run);
    } else {
      run();
    }
  }
  crew.clear();  // joins
  for (const auto& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

}  // namespace crossgrain
