// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/kernels/kernels.h"

namespace crossgrain {

namespace any_processor {
extern const Kernels kernels;
}
#ifdef CROSSGRAIN_X86_GENERATIONS
namespace avx2 {
extern const Kernels kernels;
}
namespace avx512 {
extern const Kernels kernels;
}
#endif

std::vector<const Kernels*> runnable_kernels() {
  std::vector<const Kernels*> runnable;
#ifdef CROSSGRAIN_X86_GENERATIONS
  // What x86-64-v3 and v4 have beside these, all processors with these have as well.
  const bool has_avx2 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
                        __builtin_cpu_supports("bmi2");
  const bool has_avx512 = has_avx2 && __builtin_cpu_supports("avx512vl") &&
                          __builtin_cpu_supports("avx512bw") &&
                          __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512cd");
  if (has_avx512) runnable.push_back(&avx512::kernels);
  if (has_avx2) runnable.push_back(&avx2::kernels);
#endif
  runnable.push_back(&any_processor::kernels);
  return runnable;
}

const Kernels& kernels() {
  static const Kernels& best = *runnable_kernels().front();
  return best;
}

}  // namespace crossgrain
