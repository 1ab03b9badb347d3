// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cholesky/elimination_schedule.h"

#include <tbb/info.h>
#include <tbb/task_group.h>

#include <atomic>
#include <numeric>

namespace crossgrain {
namespace {

// Enough that the last of them, wherever it ends, keeps nobody waiting for long.
constexpr int light_trees_per_thread = 32;

}  // namespace

EliminationSchedule::EliminationSchedule(const Elimination& elimination, int threads)
    : elimination_(elimination),
      // oneTBB complains when asked for more than the machine has.
      threads_(std::min(threads, tbb::info::default_concurrency())),
      top_of_(elimination.groups(), -1),
      first_of_tree_(elimination.groups()) {
  const auto groups = static_cast<int>(elimination.groups());
  std::vector<double> work(groups);
  for (int g = 0; g < groups; ++g) work[g] = elimination.operations(g);
  const double light =
      std::accumulate(work.begin(), work.end(), 0.0) / (light_trees_per_thread * threads_);
  std::iota(first_of_tree_.begin(), first_of_tree_.end(), 0);
  // Children come before their parents, a subtree is a range that ends with its root.
  for (int g = 0; g < groups; ++g)
    if (const int parent = elimination.parent[g]; parent >= 0) {
      work[parent] += work[g];
      first_of_tree_[parent] = std::min(first_of_tree_[parent], first_of_tree_[g]);
    }
  for (int g = groups; g-- > 0;) {
    const int parent = elimination.parent[g];
    if (parent >= 0 && is_light(parent))
      top_of_[g] = top_of_[parent];
    else if (work[g] <= light) {
      top_of_[g] = g;
      light_tops_.push_back(g);
    }
  }
}

void EliminationSchedule::upwards(const Work& work) const {
  const auto groups = static_cast<int>(elimination_.groups());
  std::vector<std::atomic<int>> waiting_for(groups);
  for (int g = 0; g < groups; ++g)
    waiting_for[g] = elimination_.first_child[g + 1] - elimination_.first_child[g];
  const auto climb = [&](int group) {
    for (int g = elimination_.parent[group]; g >= 0; g = elimination_.parent[g]) {
      if (waiting_for[g].fetch_sub(1) != 1) return;
      work(g);
    }
  };
  tbb::task_arena arena(threads_);
  arena.execute([&] {
    tbb::task_group tasks;
    for (const int top : light_tops_)
      tasks.run([&, top] {
        for (int g = first_of_tree_[top]; g <= top; ++g) work(g);
        climb(top);
      });
    for (int g = 0; g < groups; ++g)
      if (!is_light(g) && elimination_.first_child[g] == elimination_.first_child[g + 1])
        tasks.run([&, g] {
          work(g);
          climb(g);
        });
    tasks.wait();
  });
}

void EliminationSchedule::downwards(const Work& work) const {
  const auto groups = static_cast<int>(elimination_.groups());
  tbb::task_arena arena(threads_);
  arena.execute([&] {
    tbb::task_group tasks;
    const std::function<void(int)> descend = [&](int top) {
      if (is_light(top)) {
        for (int g = top; g >= first_of_tree_[top]; --g) work(g);
        return;
      }
      work(top);
      for (int k = elimination_.first_child[top]; k < elimination_.first_child[top + 1]; ++k)
        tasks.run([&, child = elimination_.children[k]] { descend(child); });
    };
    for (int g = 0; g < groups; ++g)
      if (elimination_.parent[g] < 0) tasks.run([&, g] { descend(g); });
    tasks.wait();
  });
}

}  // namespace crossgrain
