// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain::bench {

/// What the machine can do at most, measured; all cores together.
struct MachineLimits {
  double bytes_per_second;  ///< read from memory: sum of an array much larger than the caches
  double flops_per_second_single_core;  ///< product of dense matrices in double precision
};

MachineLimits measured_limits(int threads);

}  // namespace crossgrain::bench
