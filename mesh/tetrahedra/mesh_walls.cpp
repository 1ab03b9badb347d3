// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_walls.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>

#include "mesh/step/stages.h"
#include "mesh/tetrahedra/mesh_extent.h"
#include "mesh/tetrahedra/mesh_extraction.h"
#include "mesh/tetrahedra/meshing_failure.h"
#include "mesh/tetrahedra/sized_part.h"
#include "mesh/tetrahedra/wall_layers.h"

namespace crossgrain {
namespace {

// Meshing again where a wall holds too few layers, or because there were too many unknowns after
// all, at most this often each.
constexpr int most_corrections = 3;
constexpr int most_coarsenings = 3;

/// What had to be done to keep within the unknowns allowed; empty if nothing.
std::string coarsening_words(double factor, double as_asked, const MeshOptions& options) {
  if (factor == 1.0) return "";
  std::ostringstream text;
  text.precision(2);
  text << "every size times " << std::fixed << factor << ": as asked the mesh would have about "
       << std::defaultfloat << as_asked / 1e6 << " million unknowns, ";
  text.precision(4);
  text << options.unknowns_max / 1e6 << " million are allowed ([mesh] unknowns_max)";
  return text.str();
}

[[noreturn]] void refuse_size(double unknowns, int most) {
  throw MeshingFailure("the mesh has " + std::to_string(std::lround(unknowns)) +
                       " unknowns however large its elements, " + std::to_string(most) +
                       " are allowed; raise [mesh] unknowns_max");
}

/// Sizes that keep within the unknowns allowed, as far as can be told before meshing.
SizeField affordable_sizes(SizedPart& part, const MeshOptions& options, double& as_asked) {
  constexpr double margin = 0.9;  // the expectation may be a fifth too low
  while (true) {
    SizeField sizes = part.sizes();
    const double expected = part.expected_unknowns(sizes);
    as_asked = std::max(as_asked, expected);
    if (!(expected > options.unknowns_max)) return sizes;
    part.coarsen(expected / (margin * options.unknowns_max));
  }
}

void mesh_once(GmshSession& gmsh, const SizedPart& part, const SizeField& sizes, bool surfaces_stay,
               const std::string& coarsened) {
  const std::vector<InnerPoint> inside = part.inner_points(sizes);
  try {
    if (surfaces_stay) {
      gmsh.mesh_volumes_again(sizes, inside);
    } else {
      gmsh.mesh_straight(sizes, inside);
    }
  } catch (const MeshingFailure& failure) {
    if (coarsened.empty()) throw;
    throw MeshingFailure(failure.what() + ("; " + coarsened) + "; raise [mesh] unknowns_max");
  }
}

}  // namespace

void mesh_walls(GmshSession& gmsh, const ReadStep& step, const ConformalShape& shape,
                const MeshOptions& options, const Remedy& remedy, MeshReport& report) {
  announce_stage("measuring the walls", -1.0);
  SizedPart part(step, options, remedy);
  std::optional<SizeField> sizes;
  double as_asked = 0.0;
  int corrections = 0, coarsenings = 0;
  for (bool surfaces_stay = false;;) {
    announce_stage("measuring the walls", -1.0);
    sizes.emplace(affordable_sizes(part, options, as_asked));
    const std::string coarsened = coarsening_words(part.coarsening(), as_asked, options);
    mesh_once(gmsh, part, *sizes, surfaces_stay, coarsened);
    announce_stage("counting the layers", -1.0);
    const TetrahedronMesh mesh = extract_mesh(shape, 1).mesh;
    const auto unknowns = static_cast<double>(unknowns_when_curved(mesh));
    if (unknowns > options.unknowns_max) {
      if (++coarsenings > most_coarsenings) refuse_size(unknowns, options.unknowns_max);
      if (part.coarsening() == 1.0) as_asked = unknowns;
      part.coarsen(1.1 * unknowns / options.unknowns_max);
      surfaces_stay = false;
      continue;
    }
    const std::vector<WallCrossing> crossings = cross_walls(mesh);
    report_layers(crossings, options.layers, report);
    if (!coarsened.empty()) report.remedies.push_back(coarsened);
    if (report.layers_min >= options.layers || !coarsened.empty() ||
        corrections == most_corrections)
      break;
    part.shorten(crossings, *sizes);
    surfaces_stay = corrections++ % 2 == 0;  // often edges that are shorter inside suffice
  }
  if (corrections > 0)
    report.remedies.push_back("meshed again with shorter edges where walls had too few layers");
}

}  // namespace crossgrain
