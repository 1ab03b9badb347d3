// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/machine_limits.h"

#include <cblas.h>

#include <Eigen/Core>
#include <algorithm>

#include "solver/elements/parallel.h"
#include "tools/bench/seconds.h"

namespace crossgrain::bench {
namespace {

constexpr int trials = 5;

double reading_rate(int threads) {
  constexpr Eigen::Index count = 1 << 27;  // 1 GiB of doubles
  Eigen::VectorXd numbers(count), sums = Eigen::VectorXd::Zero(1024);
  in_parallel(count, threads, [&](Eigen::Index begin, Eigen::Index end) {
    numbers.segment(begin, end - begin).setConstant(1.0);
  });
  double best = 0.0;
  for (int trial = 0; trial < trials; ++trial) {
    const double start = seconds();
    in_parallel(count, threads, [&](Eigen::Index begin, Eigen::Index end) {
      sums[begin * threads / count] = numbers.segment(begin, end - begin).sum();
    });
    best = std::max(best, sums.sum() / count * 8.0 * count / (seconds() - start));
  }
  return best;
}

double multiplying_rate() {
  constexpr int n = 2000;
  const Eigen::MatrixXd A = Eigen::MatrixXd::Constant(n, n, 0.5),
                        B = Eigen::MatrixXd::Constant(n, n, 0.25);
  Eigen::MatrixXd C(n, n);
  openblas_set_num_threads(1);
  double best = 0.0;
  for (int trial = 0; trial < trials; ++trial) {
    const double start = seconds();
    cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, n, n, n, 1.0, A.data(), n, B.data(), n,
                0.0, C.data(), n);
    best = std::max(best, 2.0 * n * n * n / (seconds() - start));
  }
  return best;
}

}  // namespace

MachineLimits measured_limits(int threads) {
  return {reading_rate(thread_count(threads)), multiplying_rate()};
}

}  // namespace crossgrain::bench
