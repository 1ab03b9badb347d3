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

const Kernels& kernels() {
#ifdef CROSSGRAIN_X86_GENERATIONS
  static const Kernels& best = __builtin_cpu_supports("x86-64-v4")   ? avx512::kernels
                               : __builtin_cpu_supports("x86-64-v3") ? avx2::kernels
                                                                     : any_processor::kernels;
  return best;
#else
  return any_processor::kernels;
#endif
}

}  // namespace crossgrain
