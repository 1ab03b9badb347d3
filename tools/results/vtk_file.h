// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vtkPolyData.h>
#include <vtkUnstructuredGrid.h>

#include <filesystem>

namespace crossgrain {

// Private to tools/results, as everything that shows VTK.

/// Write a .vtu or a .vtp, appended raw with LZ4.
/// @param shown  path to name in messages.
/// @throws std::invalid_argument naming `shown` and the reason if writing fails.
void write_vtk(vtkUnstructuredGrid& data, const std::filesystem::path& file,
               const std::filesystem::path& shown);
void write_vtk(vtkPolyData& data, const std::filesystem::path& file,
               const std::filesystem::path& shown);

}  // namespace crossgrain
