// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// Tell of every mode's factor in every load case how far the mesh may be off there: the change of
/// the factor when each element's stress in and round the bead becomes the one recovered over
/// patches, the elements' parts summed without their signs. No further solution is
/// needed; what the mesh does wrong elsewhere is not in it. On the benchmarks of
/// tests/VERIFICATION.md nine of ten errors lie within it.
/// Where an edge without limit is nearer than two bead widths and elements are longer than half a
/// bead nothing is told. The governing factor keeps the error that was estimated for it.
void add_mode_errors(RunResult& result, const Geometry& geometry, const JudgedModel& model,
                     const Loading& loading, const ElementarySolution& solution,
                     const MaterialField& field);

}  // namespace crossgrain
