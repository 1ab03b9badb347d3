// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vtkFieldData.h>
#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>

#include <array>
#include <vector>

#include "tools/results/run_outputs.h"

namespace crossgrain {

// Private to tools/results, as everything that shows VTK.

/// A VTK data set without load-case data, and the stress point behind each of its points.
template <class DataSet>
struct Grid {
  vtkSmartPointer<DataSet> data;
  std::vector<int> stress_point;
};

/// Quadratic tetrahedra on the stress points; cell data body and print_direction.
Grid<vtkUnstructuredGrid> volume_grid(const RunOutputs& outputs);

/// VTK's polygons are flat: a quadratic triangle, corners 0 1 2 and middles 3 (01) 4 (12) 5 (20),
/// as three corner triangles and the middle one.
inline constexpr std::array<std::array<int, 3>, 4> flat_parts = {
    {{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}}};

/// Flat triangles on the boundary, four for each quadratic one; cell data face and body.
Grid<vtkPolyData> face_grid(const RunOutputs& outputs);

/// The faces that meet in a load case of joined bodies, flat triangles likewise, with what became
/// of them.
vtkSmartPointer<vtkPolyData> meeting_grid(const RunOutputs& outputs, std::size_t load_case);

/// Add the fields of one load case as point data, and what names them as field data.
/// @throws std::runtime_error naming the field and the load case if a value is not a number and the
/// load case does not say so in its `distrust`.
void add_case_fields(vtkDataSet& grid, const std::vector<int>& stress_point,
                     const RunOutputs& outputs, std::size_t load_case);

/// What `governing_mode` counts in, and what stands where no limit was found.
void add_mode_names(vtkFieldData& data);

}  // namespace crossgrain
