// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/loads/load_cases.h"

namespace crossgrain {

/// What load cases need to know of a screw group's preload.
struct PreloadLoad {
  std::string bolts;
  std::size_t load;        ///< its place among the elementary loads
  double least, greatest;  ///< multiples of the elementary load
};

/// Roles of the elementary loads that are more than a name.
struct LoadRoles {
  std::vector<PreloadLoad> preloads;
  std::vector<JointLoads> joints;
};

/// Build the load cases: assembly, working, the user's, proof; each with the joint's bounds and the
/// least and the greatest preload where they matter.
/// @param loading  whose loads, leading pressure and working pressure are set.
std::vector<LoadCase> combine_cases(const CaseFile& case_file, const Loading& loading,
                                    const LoadRoles& roles);

}  // namespace crossgrain
