// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/features/features.h"
#include "mesh/features/wetted_surface.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

// What a part most likely is for, guessed from its shape. Every guess is for the user to check.

/// Where a fluid probably goes.
struct CavityGuess {
  FaceId start;             ///< the largest hollow face that no screw sits in
  std::vector<FaceId> dry;  ///< where the flood stops: flat faces on the body's outside, or a seal
  WettedSurface wetted;
};

/// Screw holes: all parallel holes of one diameter.
struct ScrewGuess {
  std::vector<Hole> holes;
  bool threaded;     ///< blind: thread or insert in this part; else a clearance hole
  std::string size;  ///< "M5"
  double preload;    ///< per screw, modest [N]
};

/// A tube or bowl for the hand calculation.
struct TubeGuess {
  double inner_radius;  ///< [mm]
  double wall;          ///< [mm]
  double length;        ///< [mm]
};

/// @param screwed  hollow faces that are known to hold screws.
/// @return nothing if no flood from a hollow face comes to rest.
std::optional<CavityGuess> guess_cavity(const Geometry& geometry, const Features& features,
                                        BodyId body, const std::vector<FaceId>& screwed = {});

/// @param wet  what the fluid touches; a hole in it holds no screw.
std::vector<ScrewGuess> guess_screws(const Features& features, BodyId body,
                                     const std::vector<FaceId>& wet);

/// Whether a face's name says that a seal lies on it.
bool named_as_seal(const CadFace& face);

/// The tube whose bore is the cavity's first face, and the nearest boss round it.
std::optional<TubeGuess> guess_tube(const Geometry& geometry, const CadFace& bore);

/// The largest flat face; nothing if there is none.
std::optional<FaceId> largest_flat_face(const Geometry& geometry, BodyId body);

/// Whether a flat face lies on the body's outside: no point of the body is beyond it.
bool lies_outside(const Geometry& geometry, const CadFace& plane);

}  // namespace crossgrain
