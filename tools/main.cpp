// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/meshing.h"

int main(int argc, char** argv) {
  if (const auto status = crossgrain::run_as_mesh_worker(argc, argv)) return *status;
  return 0;
}
