// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/joint/preload.h"
#include "cases/loads/elementary_load.h"
#include "mesh/features/features.h"
#include "solver/elements/material_field.h"
#include "solver/interface/joint.h"

namespace crossgrain {

/// A group of equal screws between two bodies.
struct JoinedScrews {
  std::string name;
  std::size_t first, count;  ///< among the joint's screws
  PreloadRange preload;      ///< of each [N]
  double kept;               ///< share of the preload that time leaves [-]
  double embedding;          ///< that flattens out after tightening [mm]
  double expansion;          ///< of screw and insert from seat to seat when they warm [mm/K]
  double clamped_length;     ///< from the heads to the threaded holes' mouths [mm]
  Hole hole;                 ///< one of the threaded ones
  BodyId head_body;          ///< on which the heads sit
  double head_radius;        ///< of head or washer [mm]
};

/// A fluid that follows an opening.
struct JoinedFluid {
  std::size_t acting;  ///< its pressure's place among the acting loads
  double pressure;     ///< at multiple 1, the greatest on the wetted faces, head included [MPa]
  std::vector<int> wetted_nodes;
};

/// How a state of joined bodies comes about.
struct JointStateSpec {
  std::string name;
  std::string situation;  ///< all but the preload: "working after losses"
  PreloadLevel preload = PreloadLevel::nominal;
  std::vector<double> acting = {};  ///< multiples of the acting loads
  /// State in which the screws had their preload, or what creep left of it, and were locked; none:
  /// this one.
  std::optional<std::size_t> locked_in = {};
  bool after_loss = false;  ///< creep has taken its share and, once locked, embedding its depth
};

/// Bodies that are joined by faces that can part, and by screws. What they are under is not a sum
/// of elementary answers: every state is solved for itself.
struct JoinedBodies {
  Joint joint;
  std::vector<JoinedScrews> screws;
  std::vector<JoinedFluid> fluids;
  std::vector<double> gasket_growth;   ///< by pair, of its thickness when it warms [mm/K]
  std::vector<ElementaryLoad> acting;  ///< from outside, one by one
  std::vector<JointStateSpec> states;
};

/// Find where the faces meet, seat the screws.
/// @param acting  the loads from outside.
/// @throws std::invalid_argument naming the place in the case file.
JoinedBodies join_bodies(const CaseFile& case_file, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field, std::vector<ElementaryLoad> acting);

}  // namespace crossgrain
