// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/plate_formulas.h"

#include "cases/second_opinions/handbook_stress.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// A formula about to change its sign says nothing: so little of its value at the edge itself.
constexpr double least_share_of_edge = 0.2;

constexpr const char* round_source = ", x from the middle (Roark's Formulas, Table 11.2)";

/// The other extreme of the edge: the true one lies between.
HandBeside other_edge(bool clamped, const std::string& formula, double value) {
  return {clamped ? "with edges that turn freely (the part's own lie between clamped and free)"
                  : "with clamped edges (the part's own lie between free and clamped)",
          formula, value};
}

HandBeside code_rule(const std::string& formula, double value) {
  return {"by the code's rule for flat covers, without the screws' moment",
          formula + " (ASME BPVC VIII-1, UG-34 with C = 0.3, from memory)", value};
}

std::vector<TextbookValue> round_plate(const SimpleShape& shape, double p, double nu) {
  const bool clamped = shape.held_by_walls;
  const double a = shape.radius, t = shape.wall, x = shape.place.at_radius;
  const std::string name = (clamped ? "flat round bottom, " : "flat round cover, ") +
                           words(2.0 * shape.radius, 3) + " mm";
  const std::string by_edge[] = {"3 (3 + nu) p (a^2 - x^2) / (8 t^2)",
                                 "3 p ((1 + nu) a^2 - (3 + nu) x^2) / (8 t^2)"};
  const auto inputs_at = [&](const WallLine& line) -> std::vector<HandInput> {
    return {{"p", p, "MPa"},
            {"a", a, "mm"},
            {"t", t, "mm"},
            {"nu", nu, ""},
            {"x", line.at_radius, "mm"}};
  };
  std::vector<TextbookValue> values = {
      {.place = name + (clamped ? ", middle, edge clamped" : ", middle, edge supported"),
       .formula = by_edge[clamped] + round_source,
       .inputs = inputs_at(shape.place),
       .line = &shape.place,
       .stress = round_plate_radial_stress(clamped, p, a, t, nu, x),
       .beside = {other_edge(clamped, by_edge[!clamped],
                             round_plate_radial_stress(!clamped, p, a, t, nu, x)),
                  code_rule("C p (2 a)^2 / t^2", flat_cover_rule_stress(p, 2.0 * a, t))}}};
  if (!clamped || !shape.edge) return values;
  const double inside = -round_plate_radial_stress(true, p, a, t, nu, shape.edge->at_radius);
  if (!(inside / clamped_round_plate_stress(p, a, t) > least_share_of_edge)) return values;
  values.push_back({.place = name + ", at its clamped edge",
                    .formula = "-" + by_edge[1] + round_source,
                    .inputs = inputs_at(*shape.edge),
                    .line = &*shape.edge,
                    .stress = inside});
  return values;
}

std::vector<TextbookValue> rectangular_plate(const SimpleShape& shape, double p) {
  const bool clamped = shape.held_by_walls;
  const double b = 2.0 * shape.radius, a = shape.length, t = shape.wall;
  const std::string name =
      (clamped ? "flat panel, " : "flat cover, ") + words(a, 3) + " x " + words(b, 3) + " mm";
  const std::vector<HandInput> inputs = {
      {"p", p, "MPa"}, {"b", b, "mm"}, {"t", t, "mm"}, {"a", a, "mm"}};
  const std::string by_edge[] = {"beta p b^2 / t^2 (Roark's Formulas, Table 11.4)",
                                 "beta_2 p b^2 / t^2 (Roark's Formulas, Table 11.4)"};
  const double stress[] = {supported_rectangular_plate_stress(p, b, a, t),
                           clamped_rectangular_plate_centre_stress(p, b, a, t)};
  std::vector<TextbookValue> values = {
      {.place = name + (clamped ? ", middle, edges clamped" : ", middle, edges supported"),
       .formula = by_edge[clamped],
       .inputs = inputs,
       .line = &shape.place,
       .stress = stress[clamped],
       .beside = {other_edge(clamped, by_edge[!clamped], stress[!clamped]),
                  code_rule("Z C p b^2 / t^2, Z = 3.4 - 2.4 b / a up to 2.5",
                            flat_rectangular_cover_rule_stress(p, b, a, t))}}};
  if (!clamped || !shape.edge) return values;
  const double share = share_of_clamped_edge(shape.edge->to_edge, b);
  if (!(share > least_share_of_edge)) return values;
  values.push_back({.place = name + ", middle of its long clamped edge",
                    .formula = "beta_1 p b^2 / t^2 (1 - 6 x / b + 6 x^2 / b^2), x from the edge "
                               "(Roark's Formulas, Table 11.4; away from the edge as in a strip)",
                    .inputs = inputs,
                    .line = &*shape.edge,
                    .stress = share * clamped_rectangular_plate_stress(p, b, a, t)});
  values.back().inputs.push_back({"x", shape.edge->to_edge, "mm"});
  return values;
}

}  // namespace

std::vector<TextbookValue> plate_values(const SimpleShape& plate, double p, double nu) {
  return plate.kind == ShapeKind::round_plate ? round_plate(plate, p, nu)
                                              : rectangular_plate(plate, p);
}

}  // namespace crossgrain
