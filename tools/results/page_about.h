// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/studies/printability.h"
#include "tools/results/json_parts.h"
#include "tools/results/page_arrays.h"
#include "tools/results/pressure_units.h"

namespace crossgrain {

// What the pages of a run and of print directions know besides their results' JSON.

/// By name, how each array is read.
Json arrays_json(const std::vector<PackedArray>& arrays);

/// {"name", "per_MPa"}
Json pressure_unit_json(const ReadingUnits& units);

/// Every failure mode's name and words, in the order of their numbers.
Json modes_json();

/// Each CAD face in words, in the order of their ids.
Json faces_json(const Geometry& geometry, const Features& features);

/// {"height_mm", "footprint_mm2", "plate_contact_mm2", "overhang_mm2", "trapped_overhang_mm2"}
Json print_json(const Printability& print);

/// What a page shades overhangs by, as the program counts them: limits, faces in cavities, the body
/// of each face and the modelled bodies, which are printed apart.
/// @param overhang_angle  from horizontal [rad].
Json plate_json(const Geometry& geometry, const std::vector<FaceId>& cavity, double overhang_angle);

}  // namespace crossgrain
