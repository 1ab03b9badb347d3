// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/product_times.h"

#include <limits>

#include "solver/blocks/block_product.h"
#include "tools/bench/seconds.h"

namespace crossgrain::bench {
namespace {

constexpr int trials = 40;

template <class Work>
void keep_best(double& best, const Work& work) {
  const double start = seconds();
  work();
  best = std::min(best, seconds() - start);
}

}  // namespace

ProductTimes product_times(const StiffnessAssembly& assembly) {
  const BlockPattern& pattern = assembly.pattern();
  const StraightElements& elements = assembly.straight_elements();
  Blocks<float> K;
  K.resize(pattern.size());
  for (Eigen::Index k = 0; k < K.size(); ++k) K[k] = assembly.matrix()[k].cast<float>();
  const BlockProduct product(pattern, 0);
  NodeVectors<float> x(pattern.nodes(), 1), y = x;
  for (Eigen::Index i = 0; i < x.nodes(); ++i) x.at(i, 0).head<3>().setConstant(1e-3F * (i % 7));
  constexpr double never = std::numeric_limits<double>::infinity();
  ProductTimes times{never, never, 9.0 * sizeof(float) * static_cast<double>(K.size()),
                     elements.bytes()};
  for (int trial = 0; trial < trials; ++trial) {
    keep_best(times.seconds_stored, [&] { product.apply(K, x, y); });
    keep_best(times.seconds_by_elements, [&] { elements.apply(x, y); });
  }
  return times;
}

}  // namespace crossgrain::bench
