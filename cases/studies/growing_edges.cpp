// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/growing_edges.h"

#include <algorithm>
#include <cmath>

namespace crossgrain {
namespace {

// Between what a smooth place leaves from mesh to mesh and the weakest inner edge that counts.
constexpr double least_exponent = 0.2;
constexpr double least_shrinking = 1.5;
constexpr double counts_within = 1.5;

}  // namespace

std::vector<GrowingEdge> growing_edges(const std::vector<MeshPass>& passes) {
  std::vector<GrowingEdge> growing;
  if (passes.empty() || !passes.back().governing || !passes.back().governing->factor.value)
    return growing;
  const MeshPass& last = passes.back();
  for (const auto& entry : last.raw_at_edges) {
    const RawAtEdge& now = entry.second;
    if (!(now.factor < counts_within * *last.governing->factor.value)) continue;
    // The nearest pass before with elements that were clearly longer there.
    const auto coarser = std::find_if(passes.rbegin(), passes.rend(), [&](const MeshPass& pass) {
      const auto at = pass.raw_at_edges.find(entry.first);
      return at != pass.raw_at_edges.end() &&
             at->second.mean_edge_mm >= least_shrinking * now.mean_edge_mm;
    });
    if (coarser == passes.rend()) continue;
    const RawAtEdge& before = coarser->raw_at_edges.at(entry.first);
    const double exponent =
        std::log(before.factor / now.factor) / std::log(before.mean_edge_mm / now.mean_edge_mm);
    if (exponent >= least_exponent) growing.push_back({entry.first, before, now, exponent});
  }
  return growing;
}

}  // namespace crossgrain
