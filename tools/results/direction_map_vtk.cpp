// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/direction_map_vtk.h"

#include <vtkDelaunay2D.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkSmartPointer.h>
#include <vtkStringArray.h>

#include <algorithm>
#include <set>

#include "tools/results/fields_vtk.h"
#include "tools/results/plain_text.h"
#include "tools/results/vtk_file.h"
#include "tools/results/vtk_grids.h"

namespace crossgrain {
namespace {

using ModeFactors = std::map<FailureMode, std::optional<double>>;

/// Triangles of which no point lies in another's circle on the sphere: what is so in the plane of
/// the stereographic projection, which keeps circles.
vtkSmartPointer<vtkPolyData> half_sphere_surface(const Eigen::Matrix3Xd& directions) {
  vtkNew<vtkPoints> flat, round;
  flat->SetDataTypeToDouble();
  round->SetDataTypeToDouble();
  for (const Eigen::Vector3d n : directions.colwise()) {
    flat->InsertNextPoint(n.x() / (1.0 + n.z()), n.y() / (1.0 + n.z()), 0.0);
    round->InsertNextPoint(n.data());
  }
  vtkNew<vtkPolyData> points;
  points->SetPoints(flat);
  vtkNew<vtkDelaunay2D> triangles;
  triangles->SetInputData(points);
  triangles->SetOffset(50.0);  // so far away that the rim comes out convex
  triangles->Update();
  auto surface = vtkSmartPointer<vtkPolyData>::New();
  surface->ShallowCopy(triangles->GetOutput());
  surface->SetPoints(round);
  return surface;
}

class MapFields {
 public:
  MapFields(vtkPointData& data, const MappedPrint& mapped)
      : data_(data), mapped_(mapped), map_(mapped.map) {}

  void add_factors() {
    factor("safety_factor", [](const MappedFactors& f) { return f.factor; });
    factor("pressure_factor", [](const MappedFactors& f) { return f.pressure_factor; });
    add_modes(
        "safety_factor_", [](const MappedFactors& f) -> auto& { return f.on_all_loads; });
    add_modes(
        "pressure_factor_", [](const MappedFactors& f) -> auto& { return f.on_scaling_loads; });
    add<vtkIntArray>("governing_mode", [&](std::size_t d) {
      return map_.factors[d].governing ? static_cast<int>(*map_.factors[d].governing) : -1;
    });
    add<vtkDoubleArray>("estimated_error", [&](std::size_t d) { return map_.errors[d]; });
    add<vtkIntArray>("tried", [&](std::size_t d) { return map_.tried[d]; });
    for (std::size_t i = 0; i < map_.load_cases.size(); ++i) add_case(i);
    data_.SetActiveScalars("safety_factor");
  }

  void add_printing() {
    const auto& rows = mapped_.trade_offs;
    vtkNew<vtkDoubleArray> up;
    up->SetName("up");
    up->SetNumberOfComponents(3);
    for (const TradeOff& row : rows) up->InsertNextTuple(row.up.data());
    data_.AddArray(up);
    const auto column = [&](const char* name, double Printability::*value) {
      add<vtkDoubleArray>(name, [&rows, value](std::size_t d) { return rows[d].print.*value; });
    };
    column("height_mm", &Printability::height_mm);
    column("footprint_mm2", &Printability::footprint_mm2);
    column("plate_contact_mm2", &Printability::plate_contact_mm2);
    column("overhang_mm2", &Printability::overhang_mm2);
    column("trapped_overhang_mm2", &Printability::trapped_overhang_mm2);
    add<vtkIntArray>("unbeaten", [&rows](std::size_t d) { return rows[d].unbeaten ? 1 : 0; });
  }

 private:
  /// "case_1_safety_factor" and so on, cases counted from 1 as in the field data.
  void add_case(std::size_t i) {
    const std::string name = "case_" + std::to_string(i + 1) + "_";
    factor(name + "safety_factor", [&](const MappedFactors& f) { return f.of_case[i].factor; });
    add_modes(
        name + "safety_factor_", [&](const MappedFactors& f) -> auto& {
          return f.of_case[i].on_all_loads;
        });
    const bool scales = std::ranges::any_of(map_.factors, [&](const MappedFactors& f) {
      return !f.of_case[i].on_scaling_loads.empty();
    });
    if (!scales) return;
    factor(name + "pressure_factor",
           [&](const MappedFactors& f) { return f.of_case[i].pressure_factor; });
    add_modes(
        name + "pressure_factor_", [&](const MappedFactors& f) -> auto& {
          return f.of_case[i].on_scaling_loads;
        });
  }

  template <class Array, class Value>
  void add(const std::string& name, const Value& value) {
    vtkNew<Array> array;
    array->SetName(name.c_str());
    for (std::size_t d = 0; d < map_.factors.size(); ++d) array->InsertNextValue(value(d));
    data_.AddArray(array);
  }

  template <class Value>
  void factor(const std::string& name, const Value& value) {
    add<vtkDoubleArray>(name, [&](std::size_t d) {
      return std::min(value(map_.factors[d]).value_or(no_limit_factor), no_limit_factor);
    });
  }

  template <class Modes>
  void add_modes(const std::string& name, const Modes& modes) {
    std::set<FailureMode> found;
    for (const MappedFactors& factors : map_.factors)
      for (const auto& [mode, value] : modes(factors)) found.insert(mode);
    for (const FailureMode mode : found)
      factor(name + std::string(name_of(mode)), [&](const MappedFactors& factors) {
        const auto& all = modes(factors);
        const auto at = all.find(mode);
        return at == all.end() ? std::nullopt : at->second;
      });
  }

  vtkPointData& data_;
  const MappedPrint& mapped_;
  const DirectionMap& map_;
};

void add_load_case_names(vtkFieldData& data, const DirectionMap& map) {
  vtkNew<vtkStringArray> names;
  names->SetName("load_case_names");
  for (const std::string& title : map.load_cases) names->InsertNextValue(plain_text(title));
  data.AddArray(names);
}

}  // namespace

void write_direction_map_vtk(const MappedPrint& mapped, const std::filesystem::path& file,
                             const std::filesystem::path& shown) {
  const auto surface = half_sphere_surface(mapped.map.directions);
  MapFields fields(*surface->GetPointData(), mapped);
  fields.add_factors();
  fields.add_printing();
  add_mode_names(*surface->GetFieldData());
  add_load_case_names(*surface->GetFieldData(), mapped.map);
  write_vtk(*surface, file, shown);
}

}  // namespace crossgrain
