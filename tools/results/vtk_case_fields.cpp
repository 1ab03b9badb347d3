// SPDX-License-Identifier: GPL-3.0-or-later
#include <vtkDataSet.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkFloatArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkStringArray.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <stdexcept>
#include <variant>

#include "cases/judgement/verdict_sentence.h"
#include "materials/elasticity/frame.h"
#include "tools/results/fields_vtk.h"
#include "tools/results/plain_text.h"
#include "tools/results/vtk_grids.h"

namespace crossgrain {
namespace {

constexpr int mode_count = static_cast<int>(FailureMode::maximum_stress) + 1;

/// One load case's point data in the making.
class PointFields {
 public:
  PointFields(vtkPointData& data, const std::vector<int>& stress_point, const CaseResult& result)
      : data_(data), stress_point_(stress_point), result_(result) {}

  /// Add an array whose tuple at a stress point is `value(point)`, an Eigen vector.
  template <class Array, class Value>
  Array* add(const std::string& name, int components, const Value& value) {
    vtkNew<Array> array;
    array->SetName(name.c_str());
    array->SetNumberOfComponents(components);
    array->SetNumberOfTuples(static_cast<vtkIdType>(stress_point_.size()));
    for (std::size_t i = 0; i < stress_point_.size(); ++i) {
      const auto tuple = value(stress_point_[i]);
      for (int c = 0; c < components; ++c) {
        // A stress that is no number is stored as it is, for viewers to show, if the case admits to
        // it.
        if (std::isnan(tuple[c]) && result_.distrust.empty()) {
          throw std::runtime_error(
              "field " + name + " of load case \"" + plain_text(result_.name) +
              "\" is not a number at a point: this is a mistake of the program");
        }
        array->SetComponent(static_cast<vtkIdType>(i), c, tuple[c]);
      }
    }
    data_.AddArray(array);
    return array;
  }

  template <class Value>
  vtkFloatArray* add_scalar(const std::string& name, const Value& value) {
    return add<vtkFloatArray>(name, 1,
                              [&](int point) { return Eigen::Matrix<double, 1, 1>(value(point)); });
  }

 private:
  vtkPointData& data_;
  const std::vector<int>& stress_point_;
  const CaseResult& result_;
};

double von_mises(const Vector6d& s) {
  const double normal =
      std::pow(s[0] - s[1], 2) + std::pow(s[1] - s[2], 2) + std::pow(s[2] - s[0], 2);
  return std::sqrt(0.5 * normal + 3.0 * s.tail<3>().squaredNorm());
}

/// Stress in material axes where there are layers, else zero.
Vector6d layer_stress(const RunOutputs& outputs, const CaseFields& fields, int point) {
  const int tetrahedron = outputs.points[point].tetrahedron;
  if (!std::holds_alternative<LayeredStrength>(outputs.field.material(tetrahedron).strength))
    return Vector6d::Zero();
  return stress_in_material_axes(fields.stress.col(point), outputs.field.frame(tetrahedron, 0));
}

void add_mechanics(PointFields& points, vtkPointData& data, const RunOutputs& outputs,
                   const CaseFields& fields) {
  points.add<vtkDoubleArray>("displacement_mm", 3, [&](int point) -> Eigen::Vector3d {
    return fields.displacement.segment<3>(Eigen::Index{3} * outputs.points[point].node);
  });
  vtkFloatArray* stress = points.add<vtkFloatArray>("stress_MPa", 6, [&](int point) {
    const auto s = fields.stress.col(point);  // 11 22 33 23 13 12
    Vector6d vtk_order;
    vtk_order << s[0], s[1], s[2], s[5], s[3], s[4];
    return vtk_order;
  });
  const char* const components[] = {"XX", "YY", "ZZ", "XY", "YZ", "XZ"};
  for (int c = 0; c < 6; ++c) stress->SetComponentName(c, components[c]);
  data.SetActiveTensors("stress_MPa");
  data.SetActiveVectors("displacement_mm");
  points.add_scalar("tension_across_layers_MPa",
                    [&](int point) { return layer_stress(outputs, fields, point)[2]; });
  points.add_scalar("shear_between_layers_MPa", [&](int point) {
    const Vector6d s = layer_stress(outputs, fields, point);
    return std::hypot(s[3], s[4]);
  });
  points.add_scalar("von_mises_not_for_layers_MPa",
                    [&](int point) { return von_mises(fields.stress.col(point)); });
}

void add_factors(PointFields& points, vtkPointData& data, const CaseFields& fields) {
  const auto capped = [](const Eigen::VectorXd& factor) {
    // Not std::min(limit, value): that would turn a NaN into the limit.
    return [&factor](int point) {
      return factor[point] > no_limit_factor ? no_limit_factor : factor[point];
    };
  };
  points.add_scalar("safety_factor", capped(fields.overall));
  for (const auto& [mode, factor] : fields.factor) {
    points.add_scalar("safety_factor_" + std::string(name_of(mode)), capped(factor));
  }
  points.add<vtkIntArray>("governing_mode", 1, [&](int point) {
    return Eigen::Matrix<double, 1, 1>(fields.governing[point]);
  });
  data.SetActiveScalars("safety_factor");
}

void add_strings(vtkFieldData& data, const char* name, const std::vector<std::string>& strings) {
  vtkNew<vtkStringArray> array;
  array->SetName(name);
  for (const std::string& text : strings) array->InsertNextValue(plain_text(text));
  data.AddArray(array);
}

}  // namespace

void add_mode_names(vtkFieldData& data) {
  std::vector<std::string> modes;
  for (int mode = 0; mode < mode_count; ++mode)
    modes.emplace_back(name_of(static_cast<FailureMode>(mode)));
  add_strings(data, "mode_names", modes);
  vtkNew<vtkDoubleArray> no_limit;
  no_limit->SetName("safety_factor_no_limit");
  no_limit->InsertNextValue(no_limit_factor);
  data.AddArray(no_limit);
}

void add_case_fields(vtkDataSet& grid, const std::vector<int>& stress_point,
                     const RunOutputs& outputs, std::size_t load_case) {
  const CaseResult& result = outputs.result.cases[load_case];
  const CaseFields& fields = result.fields;
  const auto count = static_cast<Eigen::Index>(outputs.points.size());
  assert(fields.displacement.size() == outputs.meshed.mesh.unknowns());
  assert(fields.stress.cols() == count && fields.overall.size() == count &&
         fields.governing.size() == count);
  static_cast<void>(count);

  PointFields points(*grid.GetPointData(), stress_point, result);
  add_mechanics(points, *grid.GetPointData(), outputs, fields);
  add_factors(points, *grid.GetPointData(), fields);
  points.add<vtkIntArray>("body", 1, [&](int point) {
    return Eigen::Matrix<double, 1, 1>(number(outputs.points[point].body));
  });
  add_strings(*grid.GetFieldData(), "load_case", {title_of(result)});
  add_mode_names(*grid.GetFieldData());
}

}  // namespace crossgrain
