// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "mesh/step/stages.h"
#include "mesh/worker/worker_cancel.h"

namespace crossgrain {

using Bytes = std::vector<std::uint8_t>;

struct WorkerLimits {
  std::chrono::duration<double> total;
  std::chrono::duration<double>
      silence;  ///< longest time on one face; other stages may be silent for long
};

/// What became of a child process.
struct WorkerResult {
  enum class End { answered, crashed, out_of_time, stuck_on_face, cancelled };
  End end;
  int status = 0;                         ///< the signal that ended it, or its exit status [-]
  Bytes answer;                           ///< what the child wrote, if it answered
  std::string stage;                      ///< the last it announced
  std::optional<int> face;                ///< the face that Gmsh last said it was meshing
  std::string log;                        ///< the kernels' last lines
  std::map<std::string, double> seconds;  ///< by stage
};

/// Start this program again as a worker, hand it the request and wait for the answer. Both travel
/// through anonymous memory, not files: nothing is left behind however the two processes end.
/// @throws std::runtime_error if the process cannot be started; whatever `progress` throws, after
/// ending the child.
WorkerResult run_worker(const Bytes& request, const WorkerLimits& limits, Cancellable& job,
                        const Progress& progress);

}  // namespace crossgrain
