// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/remedies.h"

namespace crossgrain {

std::vector<Remedy> ladder_of_remedies() {
  std::vector<Remedy> ladder(1);
  Remedy rung;
  rung.size_factor = 0.7;
  rung.words = "all sizes times 0.7";
  ladder.push_back(rung);
  rung.mesh_adapt = true;
  rung.words = "all sizes times 0.7, surfaces by the MeshAdapt algorithm";
  ladder.push_back(rung);
  rung.size_factor = 1.0;
  rung.least_size = 0.01;
  rung.free_of_layers = true;
  rung.words =
      "no edge below 1 % of the part's diagonal, no points placed inside the walls, surfaces by "
      "the MeshAdapt algorithm";
  ladder.push_back(rung);
  rung = Remedy{};
  rung.size_factor = 2.0;
  rung.words = "all sizes doubled";
  ladder.push_back(rung);
  return ladder;
}

}  // namespace crossgrain
