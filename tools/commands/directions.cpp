// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/spdlog.h>

#include <iostream>

#include "tools/commands/commands.h"
#include "tools/results/directions_text.h"
#include "tools/story/directions_story.h"

namespace crossgrain {

int directions(const DirectionsOptions& options, const CommonOptions& common) {
  return 0;
}

}  // namespace crossgrain
