// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Two faces of different bodies that lie opposite each other.
struct TouchingFaces {
  FaceId first;  ///< of the body that comes first
  FaceId second;
  double area;   ///< of the first face that lies opposite the second [mm^2]
  double apart;  ///< in the mean, along the first face's normal; negative: in each other [mm]
};

/// The faces of modelled bodies that touch those of others, or are no farther from them than
/// `reach` [mm], by rays along the normals of the surface triangles. Pairs that share less than a
/// hundredth of the smaller face are left out, and so are faces at more than 25 degrees to each
/// other. Areas are good to a few hundredths; distances of curved faces to the triangles' chords,
/// those of flat ones to rounding. In order of ids.
std::vector<TouchingFaces> find_touching_faces(const Geometry& geometry, double reach);

}  // namespace crossgrain
