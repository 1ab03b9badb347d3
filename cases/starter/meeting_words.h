// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/features/touching_faces.h"

namespace crossgrain {

// How a case file says that faces of two bodies meet, as `inspect` and a starter case write it.

/// Between faces that a flat gasket joins there is no more room than this [mm]; common practice, no
/// source.
constexpr double gasket_room = 5.0;

/// Whether the faces are drawn with room for a gasket between them.
bool leaves_room(const TouchingFaces& pair);

/// ", body = \"lid\"": by its name, or by its number where others have that name, too.
std::string narrowed_to(const Geometry& geometry, BodyId body);

/// "bowl - lid"
std::string named_after_bodies(const Geometry& geometry, const TouchingFaces& pair);

/// A [[contact]] of the pair. @param kind  "unilateral" or "tied".
std::string written_contact(const Geometry& geometry, const TouchingFaces& pair,
                            const std::string& name, const std::string& kind);

/// A [[gasket]] as thick as the room between the faces and as wide as the smaller of them, if that
/// is a ring or a strip. @param bolts, pressure  names that it refers to.
std::string written_gasket(const Geometry& geometry, const TouchingFaces& pair,
                           const std::string& name, const std::string& bolts,
                           const std::string& pressure);

}  // namespace crossgrain
