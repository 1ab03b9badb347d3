// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/shape_formulas.h"

#include <cmath>

#include "cases/second_opinions/handbook_stress.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// Below this a hand calculation would not take p r / t (common practice, no source).
constexpr double least_radius_over_wall = 2.0;
// A formula about to change its sign says nothing: so little of its value at the edge itself.
constexpr double least_share_of_edge = 0.2;

bool thin(const SimpleShape& shape) { return shape.radius >= least_radius_over_wall * shape.wall; }

std::vector<HandInput> inputs_of(const SimpleShape& shape, double p) {
  const bool rectangular = shape.kind == ShapeKind::rectangular_plate;
  std::vector<HandInput> inputs = {{"p", p, "MPa"},
                                   {rectangular                            ? "b"
                                    : shape.kind == ShapeKind::round_plate ? "a"
                                                                           : "r",
                                    rectangular ? 2.0 * shape.radius : shape.radius, "mm"},
                                   {"t", shape.wall, "mm"}};
  if (rectangular) inputs.push_back({"a", shape.length, "mm"});
  return inputs;
}

std::string across(const SimpleShape& shape) { return words(2.0 * shape.radius, 3) + " mm"; }

/// Lame's curve as a straight line through the wall: what the field's is held against.
void add_thick_cylinder(const SimpleShape& shape, double p, TextbookValue& value) {
  const double a = shape.radius, b = a + shape.wall;
  const double bore = shape.pressed_inside ? cylinder_hoop_stress(p, 0.0, a, b, a)
                                           : cylinder_hoop_stress(0.0, p, a, b, a);
  value.formula =
      std::string("Lame, as a straight line through the wall; at the bore itself ") +
      (shape.pressed_inside ? "p (b^2 + r^2) / (b^2 - r^2)" : "-2 p b^2 / (b^2 - r^2)") +
      ", b = r + t (Roark's Formulas, Table 13.5)";
  value.inputs.push_back({"at the bore", bore, "MPa"});
  value.stress = thick_shell_stress(shape, p)->on(value.line->side);
}

TextbookValue shell_value(const SimpleShape& shape, double p) {
  const double t = shape.wall;
  const bool sphere = shape.kind == ShapeKind::sphere;
  TextbookValue value{
      (sphere ? "spherical shell, hollow " : "cylindrical shell, bore ") + across(shape), "",
      inputs_of(shape, p), &shape.place, 0.0};
  if (!sphere && !thin(shape)) {
    add_thick_cylinder(shape, p, value);
    return value;
  }
  const double sense = shape.pressed_inside ? 1.0 : -1.0;
  const double r = shape.pressed_inside ? shape.radius : shape.radius + t;
  value.stress = sense * (sphere ? thin_sphere_stress(p, r, t) : thin_cylinder_stress(p, r, t));
  value.formula = std::string(shape.pressed_inside ? "p r" : "-p (r + t)") +
                  (sphere ? " / (2 t)" : " / t") + " (Roark's Formulas, Table 13.1)";
  return value;
}

void add_round_plate(const SimpleShape& shape, double p, double nu,
                     std::vector<TextbookValue>& values) {
  const bool clamped = shape.held_by_walls;
  const double a = shape.radius, t = shape.wall;
  const std::string name = (clamped ? "flat round bottom, " : "flat round cover, ") + across(shape);
  const auto at = [&](const WallLine& line) {
    std::vector<HandInput> inputs = inputs_of(shape, p);
    inputs.push_back({"nu", nu, ""});
    inputs.push_back({"x", line.at_radius, "mm"});
    return inputs;
  };
  std::vector<HandInput> at_middle = at(shape.place);
  at_middle.push_back({"beside it the code's rule UG-34, 0.3 p d^2 / t^2,",
                       flat_cover_rule_stress(p, 2.0 * a, t), "MPa"});
  values.push_back(
      {name + (clamped ? ", middle, edge clamped" : ", middle, edge supported"),
       clamped
           ? "3 p ((1 + nu) a^2 - (3 + nu) x^2) / (8 t^2), x from the middle (Roark's Formulas, "
             "Table 11.2)"
           : "3 (3 + nu) p (a^2 - x^2) / (8 t^2), x from the middle (Roark's Formulas, Table 11.2)",
       at_middle, &shape.place,
       round_plate_radial_stress(clamped, p, a, t, nu, shape.place.at_radius)});
  if (!clamped || !shape.edge) return;
  const double inside = -round_plate_radial_stress(true, p, a, t, nu, shape.edge->at_radius);
  if (!(inside / clamped_round_plate_stress(p, a, t) > least_share_of_edge)) return;
  values.push_back({name + ", at its clamped edge",
                    "-3 p ((1 + nu) a^2 - (3 + nu) x^2) / (8 t^2), x from the middle (Roark's "
                    "Formulas, Table 11.2)",
                    at(*shape.edge), &*shape.edge, inside});
}

void add_rectangular_plate(const SimpleShape& shape, double p, std::vector<TextbookValue>& values) {
  const double b = 2.0 * shape.radius, a = shape.length, t = shape.wall;
  const std::string size = words(a, 3) + " x " + words(b, 3) + " mm";
  if (!shape.held_by_walls) {
    values.push_back({"flat cover, " + size + ", middle, edges supported",
                      "beta p b^2 / t^2 (Roark's Formulas, Table 11.4)", inputs_of(shape, p),
                      &shape.place, supported_rectangular_plate_stress(p, b, a, t)});
    return;
  }
  values.push_back({"flat panel, " + size + ", middle, edges clamped",
                    "beta_2 p b^2 / t^2 (Roark's Formulas, Table 11.4)", inputs_of(shape, p),
                    &shape.place, clamped_rectangular_plate_centre_stress(p, b, a, t)});
  if (!shape.edge) return;
  const double share = share_of_clamped_edge(shape.edge->to_edge, b);
  if (!(share > least_share_of_edge)) return;
  std::vector<HandInput> inputs = inputs_of(shape, p);
  inputs.push_back({"x", shape.edge->to_edge, "mm"});
  values.push_back({"flat panel, " + size + ", middle of its long clamped edge",
                    "beta_1 p b^2 / t^2 (1 - 6 x / b + 6 x^2 / b^2), x from the edge "
                    "(Roark's Formulas, Table 11.4; away from the edge as in a strip)",
                    inputs, &*shape.edge, share * clamped_rectangular_plate_stress(p, b, a, t)});
}

}  // namespace

std::vector<TextbookValue> textbook_values(const SimpleShape& shape, double p, double nu) {
  std::vector<TextbookValue> values;
  switch (shape.kind) {
    case ShapeKind::cylinder:
    case ShapeKind::sphere:
      values.push_back(shell_value(shape, p));
      break;
    case ShapeKind::round_plate:
      add_round_plate(shape, p, nu, values);
      break;
    case ShapeKind::rectangular_plate:
      add_rectangular_plate(shape, p, values);
      break;
  }
  return values;
}

std::optional<LinearisedStress> thick_shell_stress(const SimpleShape& shape, double p) {
  if (shape.kind != ShapeKind::cylinder && shape.kind != ShapeKind::sphere) return std::nullopt;
  const auto hoop = shape.kind == ShapeKind::sphere ? sphere_hoop_stress : cylinder_hoop_stress;
  const double a = shape.radius, b = a + shape.wall;
  return linearised([&](double x) {
    return shape.pressed_inside ? hoop(p, 0.0, a, b, a + x * shape.wall)
                                : hoop(0.0, p, a, b, b - x * shape.wall);
  });
}

HandCalculationSpec named_shape(const SimpleShape& shape) {
  HandCalculationSpec spec;
  spec.inner_radius = shape.radius;
  spec.wall = shape.wall;
  spec.length = shape.length;
  switch (shape.kind) {
    case ShapeKind::cylinder:
      spec.shape = thin(shape) ? HandShape::thin_cylinder : HandShape::thick_cylinder;
      break;
    case ShapeKind::sphere:
      spec.shape = HandShape::thin_sphere;
      break;
    case ShapeKind::round_plate:
      spec.shape =
          shape.held_by_walls ? HandShape::clamped_round_panel : HandShape::supported_round_panel;
      break;
    case ShapeKind::rectangular_plate:
      spec.shape = shape.held_by_walls ? HandShape::clamped_rectangular_panel
                                       : HandShape::supported_rectangular_panel;
      break;
  }
  return spec;
}

}  // namespace crossgrain
