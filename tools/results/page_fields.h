// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "tools/results/page_arrays.h"
#include "tools/results/page_mesh.h"

namespace crossgrain {

/// How finely a page carries its fields.
struct PagePrecision {
  int bits;      ///< of a stress or a movement, over its range in its load case
  bool middles;  ///< false: values at the middles of edges are left out
};

/// The shape: "corners", "middles" (how far edges bend: place less the mean of the ends), their
/// components x y z apart, "tetrahedra", "surface" and "face_of_surface".
std::vector<PackedArray> page_shape(const RunOutputs& outputs, const PageMesh& mesh,
                                    bool with_middles);

/// What is judged of one load case, each array named "<position of the load case>.<field>":
///   log2_factor (clamped to 1/64 .. 1024; what has no limit stands at the top), mode (FailureMode
///   plus 1, 0 none).
/// Code 0 is "not a number" except in `mode`.
std::vector<PackedArray> page_factors(const RunOutputs& outputs, const PageMesh& mesh,
                                      std::size_t load_case, const PagePrecision& precision);

/// What sums with other load cases, named alike: xx yy zz xy yz xz [MPa, global axes],
/// x y z [mm, displacement]. Code 0 is "not a number".
std::vector<PackedArray> page_stresses(const RunOutputs& outputs, const PageMesh& mesh,
                                       std::size_t load_case, const PagePrecision& precision);

}  // namespace crossgrain
