// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>

namespace crossgrain {

/// Call work(begin, size) on the pieces of 0..count, by the threads of the task arena that this is
/// called in. Pieces have the same size whatever the number of threads.
template <class Work>
void shared_out(int count, int piece, const Work& work) {
  const int pieces = (count + piece - 1) / piece;
  const auto on_piece = [&](int k) { work(k * piece, std::min(piece, count - k * piece)); };
  if (pieces <= 1) {
    for (int k = 0; k < pieces; ++k) on_piece(k);
    return;
  }
  // Isolated: a thread that waits here must not begin with another front.
  tbb::this_task_arena::isolate([&] { tbb::parallel_for(0, pieces, on_piece); });
}

}  // namespace crossgrain
