// SPDX-License-Identifier: GPL-3.0-or-later
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>

#include <array>
#include <map>

#include "cases/judgement/verdict_sentence.h"
#include "tools/results/plain_text.h"
#include "tools/results/vtk_grids.h"

namespace crossgrain {
namespace {

/// Nodes of the triangles that meet, numbered as they come.
class NodesOfFaces {
 public:
  NodesOfFaces(const TetrahedronMesh& mesh, const Eigen::VectorXd& displacement)
      : mesh_(mesh), displacement_(displacement) {
    points_->SetDataTypeToDouble();
    moved_->SetName("displacement_mm");
    moved_->SetNumberOfComponents(3);
  }

  vtkIdType operator()(int node) {
    const auto [known, is_new] = number_.emplace(node, points_->GetNumberOfPoints());
    if (is_new) {
      points_->InsertNextPoint(mesh_.nodes.col(node).data());
      moved_->InsertNextTuple(displacement_.segment<3>(Eigen::Index{3} * node).data());
    }
    return known->second;
  }

  void give(vtkPolyData& grid) {
    grid.SetPoints(points_);
    grid.GetPointData()->AddArray(moved_);
    grid.GetPointData()->SetActiveVectors("displacement_mm");
  }

 private:
  const TetrahedronMesh& mesh_;
  const Eigen::VectorXd& displacement_;
  std::map<int, vtkIdType> number_;
  vtkNew<vtkPoints> points_;
  vtkNew<vtkDoubleArray> moved_;
};

/// Cell data in the making, a tuple at a time.
template <class Array>
class CellValues {
 public:
  explicit CellValues(const char* name) { array_->SetName(name); }
  template <class Value>
  void add(Value value) {
    array_->InsertNextValue(value);
  }
  void give(vtkPolyData& grid) { grid.GetCellData()->AddArray(array_); }

 private:
  vtkNew<Array> array_;
};

struct MeetingCells {
  CellValues<vtkDoubleArray> pressure{"contact_pressure_MPa"}, gap{"gap_mm"},
      fluid{"fluid_pressure_MPa"}, area{"contact_area_mm2"};
  CellValues<vtkIntArray> state{"contact_state"}, meeting{"meeting"}, side{"side"}, face{"face"},
      body{"body"};

  void give(vtkPolyData& grid) {
    for (auto* values : {&pressure, &gap, &fluid, &area}) values->give(grid);
    for (auto* values : {&state, &meeting, &side, &face, &body}) values->give(grid);
    grid.GetCellData()->SetActiveScalars("contact_pressure_MPa");
  }
};

void add_names(vtkPolyData& grid, const CaseResult& result) {
  const auto add = [&](const char* name, const std::vector<std::string>& words) {
    vtkNew<vtkStringArray> array;
    array->SetName(name);
    for (const std::string& each : words) array->InsertNextValue(plain_text(each));
    grid.GetFieldData()->AddArray(array);
  };
  std::vector<std::string> names, states;
  for (const MeetingFaces& meeting : result.meetings) names.push_back(meeting.name);
  for (const MeetingState state : every_meeting_state) states.emplace_back(name_of(state));
  add("load_case", {title_of(result)});
  add("meeting_names", names);
  add("contact_state_names", states);
}

}  // namespace

vtkSmartPointer<vtkPolyData> meeting_grid(const RunOutputs& outputs, std::size_t load_case) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  const CaseResult& result = outputs.result.cases[load_case];
  auto grid = vtkSmartPointer<vtkPolyData>::New();
  NodesOfFaces nodes(mesh, result.fields.displacement);
  MeetingCells cells;
  vtkNew<vtkCellArray> triangles;
  for (std::size_t m = 0; m < result.meetings.size(); ++m) {
    for (const MeetingTriangle& at : result.meetings[m].triangles) {
      for (const auto& flat : flat_parts) {
        triangles->InsertNextCell(3);
        for (const int corner : flat)
          triangles->InsertCellPoint(nodes(mesh.triangles(corner, at.triangle)));
        cells.pressure.add(at.pressure);
        cells.gap.add(at.gap);
        cells.fluid.add(at.fluid_pressure);
        cells.area.add(at.area / static_cast<double>(flat_parts.size()));
        cells.state.add(static_cast<int>(at.state));
        cells.meeting.add(static_cast<int>(m));
        cells.side.add(at.side);
        cells.face.add(number(mesh.face_of_triangle[at.triangle]));
        cells.body.add(number(mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[at.triangle]]));
      }
    }
  }
  nodes.give(*grid);
  grid->SetPolys(triangles);
  cells.give(*grid);
  add_names(*grid, result);
  return grid;
}

}  // namespace crossgrain
