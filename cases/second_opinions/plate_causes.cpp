// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "cases/second_opinions/causes.h"
#include "cases/second_opinions/handbook_stress.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

/// In a round plate the edge's moment shifts all radial bending alike: centre less edge stays.
std::optional<Cause> edge_of_round_plate(const ComparedPlace& at) {
  if (!at.shape.edge || !at.field_elsewhere) return std::nullopt;
  const bool at_edge = &at.line == &*at.shape.edge;
  const double r = at.line.at_radius;
  const double elsewhere = at_edge ? at.shape.place.at_radius : at.shape.edge->at_radius;
  const auto free = [&](double radius) {
    return round_plate_radial_stress(false, at.pressure, at.shape.radius, at.shape.wall, at.nu,
                                     radius);
  };
  // By the bending found at the other place: what the edge's moment must be, and so what is here.
  const double moment = at.field_elsewhere->bending - free(elsewhere);
  const double here = free(r) + moment;
  const double corrected = at_edge ? -here : here;
  return Cause{"edge gives way",
               "The edge is neither clamped nor free: with the edge moment that the bending at the "
               "plate's other place speaks of, the formula makes " +
                   percent(corrected / at.hand) + ".",
               corrected};
}

/// Of a rectangle only the two extremes are known.
std::optional<Cause> edge_of_rectangle(const ComparedPlace& at) {
  if (!at.shape.held_by_walls) return std::nullopt;
  const bool at_edge = at.shape.edge && &at.line == &*at.shape.edge;
  const double ratio = at.field.on(at.line.side) / at.hand;
  const double supported = supported_rectangular_plate_stress(at.pressure, 2.0 * at.shape.radius,
                                                              at.shape.length, at.shape.wall);
  const bool between = at_edge ? ratio > -agreed && ratio < 1.0
                               : ratio > 1.0 && ratio < (1.0 + agreed) * supported / at.hand;
  if (!between) return std::nullopt;
  return Cause{"edge gives way",
               at_edge
                   ? "The walls at the edge turn with the plate: less than clamped."
                   : "The walls at the edge turn with the plate: with edges that turn freely the "
                     "formula makes " +
                         percent(supported / at.hand) + ".",
               std::nullopt};
}

}  // namespace

std::optional<Cause> edge_gives_way(const ComparedPlace& at) {
  if (at.shape.kind == ShapeKind::round_plate) return edge_of_round_plate(at);
  if (at.shape.kind == ShapeKind::rectangular_plate) return edge_of_rectangle(at);
  return std::nullopt;
}

std::optional<Cause> edge_held_in_part(const ComparedPlace& at) {
  if (is_shell(at.shape) || at.shape.held_by_walls) return std::nullopt;
  const double r = at.line.at_radius, a = at.shape.radius, t = at.shape.wall;
  const double clamped =
      at.shape.kind == ShapeKind::round_plate
          ? round_plate_radial_stress(true, at.pressure, a, t, at.nu, r)
          : clamped_rectangular_plate_centre_stress(at.pressure, 2.0 * a, at.shape.length, t);
  const double ratio = at.field.on(at.line.side) / at.hand;
  if (!(ratio < 1.0 && ratio > clamped / at.hand - agreed)) return std::nullopt;
  return Cause{"edge held in part",
               "The edge does not turn freely: clamped, the formula makes " +
                   percent(clamped / at.hand) + ".",
               std::nullopt};
}

std::optional<Cause> pulled_in_its_plane(const ComparedPlace& at) {
  if (is_shell(at.shape) || !(std::abs(at.field.membrane) > agreed * std::abs(at.hand)))
    return std::nullopt;
  return Cause{"pulled in its plane",
               "The plate also carries a mean stress through its thickness, which makes " +
                   percent(1.0 + at.field.membrane / at.hand) + "; the formula has bending alone.",
               at.hand + at.field.membrane};
}

std::optional<Cause> short_plate(const ComparedPlace& at) {
  constexpr double slender_from = 5.0;  // half-span over thickness
  if (is_shell(at.shape) || at.shape.radius >= slender_from * at.shape.wall) return std::nullopt;
  return Cause{"too thick for a plate",
               "Half its span is only " + words(at.shape.radius / at.shape.wall, 2) +
                   " times its thickness: plate theory leaves out shear.",
               std::nullopt};
}

}  // namespace crossgrain
