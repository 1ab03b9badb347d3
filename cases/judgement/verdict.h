// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// The worst factors over the cases that speak for service, and where: `factor`, `pressure_factor`,
/// `governing` and its case, the largest displacement and energy. Anew each time.
void find_worst(RunResult& result);

/// Draw the run's conclusions from what it found: worst factors over the cases, allowable and proof
/// pressure, reasons not to trust it, the verdict and its sentence. Reads `cases`, `targets`,
/// `balance`, `mesh_report`, `buckling`, `working_pressure_MPa`; fills the rest of the head.
///
/// pass: the low ends of the factor and the pressure factor, less what the mesh may be off by, meet
/// the target; fail: a high end, with as much added, is below it; marginal between, or when
/// something a plain pass needs was left unchecked (buckling, a proof test that would itself break
/// a limit); not trusted: a stress that is not a number, force or moment balance worse than 1e-6,
/// residual above 1e-8 with an error in energy not known to be below 1e-6, mesh volume off by more
/// than 1 %, an element turned inside out or flatter than `least_trusted_jacobian`, a wall without
/// a whole layer. Fewer layers of elements through a wall than asked for is a warning: one
/// quadratic tetrahedron carries a linear stress through the wall exactly.
void conclude(RunResult& result, int layers_asked);

/// Words for a factor: "3.4 (3.1 to 3.9)", "no limit found".
std::string words_for(const FactorRange& factor);

}  // namespace crossgrain
