// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "tools/results/directions_text.h"

namespace crossgrain {

/// Write the map as a .vtp: its directions as points of the unit half-sphere, joined by triangles.
/// Point data: safety_factor and safety_factor_<mode> on all loads, pressure_factor and
/// pressure_factor_<mode> on the scaling ones, governing_mode (position in the field data's
/// mode_names, -1 none), estimated_error (of a factor that governs, relative), tried (1: solved to
/// see how far the map was off), up (3: the direction or its opposite, for which the following
/// stand), height_mm, footprint_mm2, plate_contact_mm2, overhang_mm2, trapped_overhang_mm2,
/// unbeaten. No limit: as in fields_vtk.h.
/// @param shown  path to name in messages.
/// @throws std::invalid_argument naming `shown` and the reason if writing fails.
void write_direction_map_vtk(const MappedPrint& mapped, const std::filesystem::path& file,
                             const std::filesystem::path& shown);

}  // namespace crossgrain
