// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tbb/task_arena.h>

#include <functional>

#include "solver/cholesky/elimination.h"

namespace crossgrain {

/// Walks through the groups of an elimination on several threads. Small subtrees are walked by one
/// thread each; above them, whoever finishes the last child goes on with the parent.
class EliminationSchedule {
 public:
  /// @param elimination  kept by reference.
  EliminationSchedule(const Elimination& elimination, int threads);

  using Work = std::function<void(int group)>;
  /// Every group after its children. The first exception of the work, if any, is thrown on.
  void upwards(const Work& work) const;
  /// Every group before its children.
  void downwards(const Work& work) const;

 private:
  bool is_light(int group) const { return top_of_[group] >= 0; }

  const Elimination& elimination_;
  int threads_;
  std::vector<int> top_of_;         ///< for a group in a light subtree, the subtree's root; or -1
  std::vector<int> first_of_tree_;  ///< first group of the subtree of each group
  std::vector<int> light_tops_;
};

}  // namespace crossgrain
