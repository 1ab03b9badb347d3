// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/starter/starter_guess.h"
#include "mesh/features/touching_faces.h"

namespace crossgrain {

/// Screws with their threads in one body, through holes of another.
struct JoiningScrews {
  ScrewGuess threads;
  FaceId head_seat;  ///< of the other body, under one of the heads
};

/// Bodies of a file that most likely are joined.
struct JointGuess {
  std::vector<BodyId> bodies;                        ///< the largest first
  std::vector<std::optional<CavityGuess>> cavities;  ///< of each
  std::vector<JoiningScrews> screws;
  std::vector<TouchingFaces> gaskets;   ///< pairs with a gasket's room between them
  std::vector<TouchingFaces> contacts;  ///< pairs drawn touching
};

/// The largest body and those that lie on it, or on these in turn; what is much smaller is a screw
/// or an insert. Faces that a fluid touches join nothing.
/// @return nothing if the bodies cannot be told apart by name, or nothing joins them.
std::optional<JointGuess> guess_joint(const Geometry& geometry, const Features& features);

}  // namespace crossgrain
