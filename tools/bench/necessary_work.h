// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/assembly/stiffness_assembly.h"

namespace crossgrain::bench {

/// What our method cannot do without, on one mesh: matrices and factor read from memory once per
/// use; vectors, indices, the assembly and aggregation's coarser levels are left out.
struct NecessaryWork {
  double bytes_per_iteration;
  double flops_to_factorise;
};

NecessaryWork necessary_work(const StiffnessAssembly& assembly, bool corners_exact);

}  // namespace crossgrain::bench
