// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/compared_shapes.h"

#include <algorithm>
#include <cmath>

#include "cases/second_opinions/broken_assumptions.h"
#include "cases/second_opinions/plate_formulas.h"
#include "cases/second_opinions/shell_formulas.h"

namespace crossgrain {
namespace {

/// All places of one shape.
struct ComparedShape {
  const SimpleShape* shape;
  std::vector<HandComparison> places;

  double greatest() const {
    double greatest = 0.0;
    for (const HandComparison& place : places)
      greatest = std::max(greatest, std::abs(place.surface_MPa));
    return greatest;
  }
};

struct Fields {
  StressOnMesh printed, isotropic;
};

ComparedShape compared(const SimpleShape& shape, const ComparedFields& fields,
                       const Fields& on_mesh) {
  ComparedShape result{&shape, {}};
  const bool plate = !is_shell(shape);
  const auto values = plate ? plate_values(shape, fields.pressure, fields.nu)
                            : shell_values(shape, fields.pressure);
  std::vector<std::optional<LinearisedStress>> found;
  for (const TextbookValue& value : values)
    found.push_back(linearised_along(*value.line, on_mesh.printed));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!found[i]) continue;
    const TextbookValue& value = values[i];
    const Difference difference =
        difference_at({.shape = shape,
                       .line = *value.line,
                       .hand = value.stress,
                       .pressure = fields.pressure,
                       .nu = fields.nu,
                       .lame = value.lame,
                       .end_thrust = value.end_thrust,
                       .field = *found[i],
                       .isotropic = linearised_along(*value.line, on_mesh.isotropic),
                       .field_elsewhere = plate && values.size() == 2 ? found[1 - i] : std::nullopt,
                       .other_loads = fields.other_loads});
    result.places.push_back({.shape = value.place,
                             .faces = shape.faces,
                             .formula = value.formula,
                             .inputs = value.inputs,
                             .hand_MPa = value.stress,
                             .beside = value.beside,
                             .from = value.line->from,
                             .to = value.line->to,
                             .membrane_MPa = found[i]->membrane,
                             .surface_MPa = found[i]->on(value.line->side),
                             .differs = difference.names,
                             .reason = difference.reason});
  }
  return result;
}

bool alike(const SimpleShape& a, const SimpleShape& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) <= 0.01 * std::max(x, y); };
  return a.kind == b.kind && a.body == b.body && a.held_by_walls == b.held_by_walls &&
         a.pressed_inside == b.pressed_inside && near(a.radius, b.radius) && near(a.wall, b.wall) &&
         near(a.length, b.length);
}

void merge(ComparedShape&& one, std::vector<ComparedShape>& all) {
  const auto known = std::find_if(all.begin(), all.end(), [&](const ComparedShape& other) {
    return alike(*one.shape, *other.shape) && one.places.size() == other.places.size();
  });
  if (known == all.end()) {
    all.push_back(std::move(one));
    return;
  }
  std::vector<FaceId> faces = known->places.front().faces;
  faces.insert(faces.end(), one.shape->faces.begin(), one.shape->faces.end());
  std::sort(faces.begin(), faces.end());
  if (one.greatest() > known->greatest()) *known = std::move(one);
  for (HandComparison& place : known->places) place.faces = faces;
}

}  // namespace

std::vector<HandComparison> compare_shapes(const std::vector<SimpleShape>& shapes,
                                           const ComparedFields& fields) {
  const PointLocator locator(fields.mesh);
  const Fields on_mesh{{fields.mesh, locator, fields.points, fields.printed},
                       {fields.mesh, locator, fields.points, fields.isotropic}};
  std::vector<ComparedShape> all;
  for (const SimpleShape& shape : shapes) {
    ComparedShape one = compared(shape, fields, on_mesh);
    if (!one.places.empty()) merge(std::move(one), all);
  }
  std::vector<HandComparison> comparisons;
  for (ComparedShape& one : all)
    for (HandComparison& place : one.places) comparisons.push_back(std::move(place));
  return comparisons;
}

}  // namespace crossgrain
