// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/judgement/stress_sites.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// Values at the points, along the lines and over the faces that the case names, for one load case.
/// A face probe gives the nodes of the faces; readers take mean, least and greatest.
/// @throws std::invalid_argument naming the probe and its place in the case file if a point lies
/// outside the part (for a line: if all its samples do; the others are left out).
std::vector<ProbeResult> read_probes(const CaseFile& case_file, const Geometry& geometry,
                                     const Features& features, const TetrahedronMesh& mesh,
                                     const StressSites& sites, const LoadCase& load_case,
                                     const CombinedCase& combined);

}  // namespace crossgrain
