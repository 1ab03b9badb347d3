// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <filesystem>
#include <optional>
#include <vector>

#include "mesh/tetrahedra/sized_point.h"

namespace crossgrain {

struct MeshOptions {
  int layers = 2;                   ///< elements through every wall
  std::optional<double> size;       ///< largest edge [mm]; default from the box
  std::optional<double> size_min;   ///< smallest edge, but for those in balls [mm]
  double elements_per_turn = 12.0;  ///< on curved faces, per 2 pi
  double refinement = 1.0;          ///< divides every size but those of balls and wanted_sizes
  int unknowns_max = 3'000'000;     ///< sizes grow everywhere until the mesh has no more
  bool deterministic = true;
  std::vector<SizeBall> balls;           ///< whatever the sizes above
  std::vector<SizedPoint> wanted_sizes;  ///< mean edges there, growing away
  std::chrono::seconds time_limit{600};
  std::optional<std::filesystem::path>
      mesh_file;  ///< a .msh of the same geometry, read in place of meshing
  std::optional<std::filesystem::path> write_msh;  ///< keep the mesh as .msh
};

}  // namespace crossgrain
