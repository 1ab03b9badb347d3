// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Shape.hxx>
#include <vector>

#include "mesh/step/step_reader.h"

namespace crossgrain {

/// A CAD face as one body's.
struct FaceOwner {
  BodyId body;
  FaceId face;
};

/// The modelled bodies, glued where they touch unless they are kept apart: there one face belongs
/// to two bodies, and a CAD face may have become several. Gmsh numbers volumes and faces in the
/// order of these lists, from 1.
struct ConformalShape {
  TopoDS_Shape shape;
  std::vector<BodyId> body_of_volume;
  std::vector<std::vector<FaceOwner>> owners_of_face;
};

/// @throws std::invalid_argument naming two bodies that overlap, or that touch but cannot be glued.
ConformalShape make_conformal(const ReadStep& step);

}  // namespace crossgrain
