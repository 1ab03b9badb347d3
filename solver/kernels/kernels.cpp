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
  if (__builtin_cpu_supports("x86-64-v4")) runnable.push_back(&avx512::kernels);
  if (__builtin_cpu_supports("x86-64-v3")) runnable.push_back(&avx2::kernels);
#endif
  runnable.push_back(&any_processor::kernels);
  return runnable;
}

const Kernels& kernels() {
  static const Kernels& best = *runnable_kernels().front();
  return best;
}

}  // namespace crossgrain
