// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/stages.h"

#include <cstdio>

namespace crossgrain {

void announce_stage(const std::string& stage, double share) {
  std::printf("%s%.4f %s\n", stage_mark.data(), share, stage.c_str());
  std::fflush(stdout);
}

}  // namespace crossgrain
