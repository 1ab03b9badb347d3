// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/necessary_work.h"

#include "solver/cholesky/sparse_cholesky.h"

namespace crossgrain::bench {
namespace {

double bytes_of_blocks(const BlockPattern& pattern, std::size_t bytes) {
  return 9.0 * static_cast<double>(bytes) * static_cast<double>(pattern.size());
}

}  // namespace

NecessaryWork necessary_work(const StiffnessAssembly& assembly, bool corners_exact) {
  // A cycle multiplies in single precision at every smoothing step and for the correction, but for
  // the last step; the conjugate gradients multiply once in double.
  const StraightElements& elements = assembly.straight_elements();
  const double conjugate = bytes_of_blocks(assembly.pattern(), sizeof(double)),
               single = elements.usable() ? elements.bytes()
                                          : bytes_of_blocks(assembly.pattern(), sizeof(float));
  if (!corners_exact)
    return {conjugate + 4 * single + 6 * bytes_of_blocks(assembly.corner_pattern(), sizeof(float)),
            0.0};
  const SparseCholesky<float> corners(assembly.corner_pattern(), 1);
  // Forward and backward through the factor.
  return {conjugate + 8 * single + 2.0 * corners.bytes_of_factor(), corners.operations()};
}

}  // namespace crossgrain::bench
