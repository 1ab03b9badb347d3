// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/shell_formulas.h"

#include "cases/second_opinions/handbook_stress.h"
#include "cases/second_opinions/through_wall.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// Below this a hand calculation would not take p r / t (common practice, no source).
constexpr double least_radius_over_wall = 2.0;

std::string name_of(const SimpleShape& shape) {
  return (shape.kind == ShapeKind::sphere ? "spherical shell, hollow "
                                          : "cylindrical shell, bore ") +
         words(2.0 * shape.radius, 3) + " mm";
}

std::vector<HandInput> inputs_of(const SimpleShape& shape, double p) {
  return {{"p", p, "MPa"}, {"r", shape.radius, "mm"}, {"t", shape.wall, "mm"}};
}

/// Lame's stress round the shell as a straight line through its wall.
double lame_stress(const SimpleShape& shape, double p) {
  const auto hoop = shape.kind == ShapeKind::sphere ? sphere_hoop_stress : cylinder_hoop_stress;
  const double a = shape.radius, b = a + shape.wall;
  return linearised([&](double x) {
           return shape.pressed_inside ? hoop(p, 0.0, a, b, a + x * shape.wall)
                                       : hoop(0.0, p, a, b, b - x * shape.wall);
         })
      .on(shape.place.side);
}

/// Lame's curve as a straight line through the wall: what the field's is held against.
TextbookValue thick_cylinder(const SimpleShape& shape, double p) {
  const double a = shape.radius, b = a + shape.wall;
  const double bore = shape.pressed_inside ? cylinder_hoop_stress(p, 0.0, a, b, a)
                                           : cylinder_hoop_stress(0.0, p, a, b, a);
  const double lame = lame_stress(shape, p);
  return {
      .place = name_of(shape),
      .formula =
          "Lame, as a straight line through the wall, b = r + t (Roark's Formulas, "
          "Table 13.5)",
      .inputs = inputs_of(shape, p),
      .line = &shape.place,
      .stress = lame,
      .beside = {{"at the bore itself",
                  shape.pressed_inside ? "p (b^2 + r^2) / (b^2 - r^2)" : "-2 p b^2 / (b^2 - r^2)",
                  bore}},
      .lame = lame};
}

TextbookValue round_the_shell(const SimpleShape& shape, double p) {
  const bool sphere = shape.kind == ShapeKind::sphere;
  if (!sphere && !taken_as_thin(shape)) return thick_cylinder(shape, p);
  const double t = shape.wall;
  const double sense = shape.pressed_inside ? 1.0 : -1.0;
  const double r = shape.pressed_inside ? shape.radius : shape.radius + t;
  return {.place = name_of(shape),
          .formula = std::string(shape.pressed_inside ? "p r" : "-p (r + t)") +
                     (sphere ? " / (2 t)" : " / t") + " (Roark's Formulas, Table 13.1)",
          .inputs = inputs_of(shape, p),
          .line = &shape.place,
          .stress = sense * (sphere ? thin_sphere_stress(p, r, t) : thin_cylinder_stress(p, r, t)),
          .lame = lame_stress(shape, p)};
}

/// The thrust on the closed end, over the wall's section.
TextbookValue along_the_axis(const SimpleShape& shape, double p) {
  const bool inside = shape.pressed_inside, thin = taken_as_thin(shape);
  const double r = inside ? shape.radius : shape.radius + shape.wall;
  const double lame = closed_cylinder_axial_stress(inside ? p : 0.0, inside ? 0.0 : p, shape.radius,
                                                   shape.radius + shape.wall);
  return {.place = name_of(shape) + ", along its axis, end closed",
          .formula = thin ? std::string(inside ? "p r" : "-p (r + t)") +
                                " / (2 t) (Roark's Formulas, Table 13.1)"
                          : std::string(inside ? "p r^2" : "-p b^2") +
                                " / (b^2 - r^2), b = r + t (Roark's Formulas, Table 13.5)",
          .inputs = inputs_of(shape, p),
          .line = &*shape.along_axis,
          .stress = thin ? (inside ? 0.5 : -0.5) * thin_cylinder_stress(p, r, shape.wall) : lame,
          .lame = lame,
          .end_thrust = true};
}

}  // namespace

bool taken_as_thin(const SimpleShape& shell) {
  return shell.radius >= least_radius_over_wall * shell.wall;
}

std::vector<TextbookValue> shell_values(const SimpleShape& shell, double p) {
  std::vector<TextbookValue> values = {round_the_shell(shell, p)};
  if (shell.along_axis) values.push_back(along_the_axis(shell, p));
  return values;
}

}  // namespace crossgrain
