// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/vtk_grids.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDoubleArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>

#include <numeric>

#include "tools/results/point_of_node.h"

namespace crossgrain {
namespace {

vtkNew<vtkIntArray> int_array(const char* name, vtkIdType size) {
  vtkNew<vtkIntArray> array;
  array->SetName(name);
  array->SetNumberOfTuples(size);
  return array;
}

vtkNew<vtkPoints> grid_points(const RunOutputs& outputs, const std::vector<int>& stress_point) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  points->SetNumberOfPoints(static_cast<vtkIdType>(stress_point.size()));
  for (std::size_t i = 0; i < stress_point.size(); ++i) {
    const auto node = outputs.meshed.mesh.nodes.col(outputs.points[stress_point[i]].node);
    points->SetPoint(static_cast<vtkIdType>(i), node.data());
  }
  return points;
}

}  // namespace

Grid<vtkUnstructuredGrid> volume_grid(const RunOutputs& outputs) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  Grid<vtkUnstructuredGrid> grid{vtkSmartPointer<vtkUnstructuredGrid>::New(), {}};
  grid.stress_point.resize(outputs.points.size());
  std::iota(grid.stress_point.begin(), grid.stress_point.end(), 0);
  grid.data->SetPoints(grid_points(outputs, grid.stress_point));

  auto body = int_array("body", mesh.tetrahedron_count());
  vtkNew<vtkDoubleArray> print_direction;
  print_direction->SetName("print_direction");
  print_direction->SetNumberOfComponents(3);
  print_direction->SetNumberOfTuples(mesh.tetrahedron_count());
  PointOfNode point_of_node(outputs);
  vtkNew<vtkCellArray> cells;
  for (vtkIdType t = 0; t < mesh.tetrahedron_count(); ++t) {
    point_of_node.turn_to(mesh.body_of_tetrahedron[t]);
    cells->InsertNextCell(10);
    // TetrahedronMesh keeps VTK's own node order.
    for (int k = 0; k < 10; ++k) cells->InsertCellPoint(point_of_node(mesh.tetrahedra(k, t)));
    body->SetValue(t, number(mesh.body_of_tetrahedron[t]));
    const Eigen::Vector3d direction = outputs.field.frame(t, 0).col(2);
    print_direction->SetTuple(t, direction.data());
  }
  grid.data->SetCells(VTK_QUADRATIC_TETRA, cells);
  grid.data->GetCellData()->AddArray(body);
  grid.data->GetCellData()->AddArray(print_direction);
  return grid;
}

Grid<vtkPolyData> face_grid(const RunOutputs& outputs) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  Grid<vtkPolyData> grid{vtkSmartPointer<vtkPolyData>::New(), {}};
  auto face = int_array("face", 4 * mesh.triangle_count());
  auto body = int_array("body", 4 * mesh.triangle_count());
  std::vector<int> local(outputs.points.size(), -1);
  PointOfNode point_of_node(outputs);
  vtkNew<vtkCellArray> cells;
  for (vtkIdType t = 0; t < mesh.triangle_count(); ++t) {
    const BodyId owner = mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[t]];
    point_of_node.turn_to(owner);
    for (std::size_t part = 0; part < flat_parts.size(); ++part) {
      cells->InsertNextCell(3);
      for (const int corner : flat_parts[part]) {
        const int point = point_of_node(mesh.triangles(corner, t));
        if (local[point] < 0) {
          local[point] = static_cast<int>(grid.stress_point.size());
          grid.stress_point.push_back(point);
        }
        cells->InsertCellPoint(local[point]);
      }
      face->SetValue(4 * t + static_cast<vtkIdType>(part), number(mesh.face_of_triangle[t]));
      body->SetValue(4 * t + static_cast<vtkIdType>(part), number(owner));
    }
  }
  grid.data->SetPoints(grid_points(outputs, grid.stress_point));
  grid.data->SetPolys(cells);
  grid.data->GetCellData()->AddArray(face);
  grid.data->GetCellData()->AddArray(body);
  return grid;
}

}  // namespace crossgrain
