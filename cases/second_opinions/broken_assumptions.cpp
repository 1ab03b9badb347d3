// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/broken_assumptions.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "cases/second_opinions/handbook_stress.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

constexpr double agreed = 0.15;

/// A cause, and the value that the textbook would have given with it taken into account.
struct Cause {
  std::string name;
  std::string sentence;
  std::optional<double> corrected;  ///< [MPa]
};

std::string percent(double ratio) {
  const double change = 100.0 * (ratio - 1.0);
  return (change < 0.0 ? "-" : "+") + words(std::round(std::abs(change)), 4) + " %";
}

bool shell(const SimpleShape& shape) {
  return shape.kind == ShapeKind::cylinder || shape.kind == ShapeKind::sphere;
}

/// Beyond which a disturbance of a shell has died out: for an end 2.5 times it (common practice).
double decay_length(const SimpleShape& shape) {
  const double radius = shell(shape) ? shape.radius + 0.5 * shape.wall : shape.radius;
  return std::sqrt(radius * shape.wall);
}

std::optional<Cause> thick_wall(const ComparedPlace& at) {
  constexpr double thin_from = 10.0;
  const auto lame = thick_shell_stress(at.shape, at.pressure);
  if (!lame || at.shape.radius / at.shape.wall >= thin_from) return std::nullopt;
  const double value = lame->on(at.line.side);
  return Cause{"thick wall",
               "The wall is thick, r/t " + words(at.shape.radius / at.shape.wall, 2) +
                   ": Lame's stress, as a straight line through it, makes " +
                   percent(value / at.hand) + ".",
               value};
}

std::optional<Cause> uneven_wall(const ComparedPlace& at) {
  if (!(at.shape.wall_greatest > (1.0 + agreed) * at.shape.wall)) return std::nullopt;
  return Cause{"uneven wall",
               "The wall is " + words(at.shape.wall, 3) + " to " +
                   words(at.shape.wall_greatest, 3) + " mm thick there; the formula takes one.",
               std::nullopt};
}

std::optional<Cause> near_an_end(const ComparedPlace& at) {
  const double reach = 2.5 * decay_length(at.shape);
  if (!shell(at.shape) || !(at.line.to_edge < reach)) return std::nullopt;
  return Cause{"near an end or step",
               "An end or a step of the wall is " + words(at.line.to_edge, 3) +
                   " mm away; what it holds or bends dies out over 2.5 (r t)^(1/2) = " +
                   words(reach, 3) + " mm.",
               std::nullopt};
}

std::optional<Cause> opening_nearby(const ComparedPlace& at) {
  const double reach = decay_length(at.shape);
  if (!(at.line.to_opening < reach)) return std::nullopt;
  return Cause{"opening nearby",
               "A hole's rim is " + words(at.line.to_opening, 3) +
                   " mm away, less than (r t)^(1/2) = " + words(reach, 3) +
                   " mm; at its rim stress is 2 to 3 times the wall's.",
               std::nullopt};
}

std::optional<Cause> pulled_in_its_plane(const ComparedPlace& at) {
  if (shell(at.shape) || !(std::abs(at.field.membrane) > agreed * std::abs(at.hand)))
    return std::nullopt;
  return Cause{"pulled in its plane",
               "The plate also carries a mean stress through its thickness, which makes " +
                   percent(1.0 + at.field.membrane / at.hand) + "; the formula has bending alone.",
               at.hand + at.field.membrane};
}

std::optional<Cause> short_plate(const ComparedPlace& at) {
  constexpr double slender_from = 5.0;  // half-span over thickness
  if (shell(at.shape) || at.shape.radius >= slender_from * at.shape.wall) return std::nullopt;
  return Cause{"too thick for a plate",
               "Half its span is only " + words(at.shape.radius / at.shape.wall, 2) +
                   " times its thickness: plate theory leaves out shear.",
               std::nullopt};
}

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

/// What lies beyond a seal, a rim or the walls outside it, holds the edge in part.
std::optional<Cause> edge_held_in_part(const ComparedPlace& at) {
  if (shell(at.shape) || at.shape.held_by_walls) return std::nullopt;
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

std::optional<Cause> edge_gives_way(const ComparedPlace& at) {
  if (at.shape.kind == ShapeKind::round_plate) return edge_of_round_plate(at);
  if (at.shape.kind == ShapeKind::rectangular_plate) return edge_of_rectangle(at);
  return std::nullopt;
}

std::optional<Cause> stiffness_by_direction(const ComparedPlace& at) {
  if (!at.isotropic) return std::nullopt;
  const double printed = at.field.on(at.line.side), isotropic = at.isotropic->on(at.line.side);
  if (!(std::abs(printed / isotropic - 1.0) > 0.5 * agreed)) return std::nullopt;
  return Cause{"stiffness by direction",
               "The print is not equally stiff in all directions: the same place in an isotropic "
               "part makes " +
                   percent(isotropic / at.hand) + ".",
               at.hand * printed / isotropic};
}

std::optional<Cause> other_loads(const ComparedPlace& at) {
  if (!at.other_loads) return std::nullopt;
  return Cause{"other loads", "Loads other than the pressure act in this load case, too.",
               std::nullopt};
}

std::vector<Cause> causes_of(const ComparedPlace& at) {
  std::vector<Cause> causes;
  for (const auto& find :
       {thick_wall, uneven_wall, near_an_end, opening_nearby, edge_gives_way, edge_held_in_part,
        pulled_in_its_plane, short_plate, stiffness_by_direction, other_loads})
    if (auto cause = find(at)) causes.push_back(std::move(*cause));
  return causes;
}

double off(double found, double expected) { return std::abs(found / expected - 1.0); }

/// One cause or two whose numbers together come within 15 %; empty if there are none.
std::vector<Cause> explaining(const std::vector<Cause>& causes, double found, double hand) {
  for (const Cause& one : causes)
    if (one.corrected && off(found, *one.corrected) <= agreed) return {one};
  for (auto one = causes.begin(); one != causes.end(); ++one) {
    for (auto two = one + 1; two != causes.end(); ++two) {
      if (!one->corrected || !two->corrected) continue;
      if (off(found, *one->corrected + *two->corrected - hand) <= agreed) return {*one, *two};
    }
  }
  return {};
}

Difference told(const std::vector<Cause>& causes, const std::string& end) {
  Difference difference;
  for (const Cause& cause : causes) {
    difference.names += (difference.names.empty() ? "" : ", ") + cause.name;
    difference.reason += cause.sentence + " ";
  }
  difference.reason += end;
  return difference;
}

}  // namespace

Difference difference_at(const ComparedPlace& at) {
  const double found = at.field.on(at.line.side);
  if (!(off(found, at.hand) > agreed)) return {};
  std::vector<Cause> causes = causes_of(at);
  if (const auto enough = explaining(causes, found, at.hand); !enough.empty()) {
    double expected = at.hand;
    for (const Cause& cause : enough) expected += *cause.corrected - at.hand;
    return told(enough, "That leaves " + percent(found / expected) + ".");
  }
  // A cause whose number leads away from what was found is none.
  std::erase_if(causes, [&](const Cause& cause) {
    return cause.corrected && !(off(found, *cause.corrected) < off(found, at.hand));
  });
  if (causes.empty())
    return {"not explained",
            "Not explained by a thick or uneven wall, an end, a step or a hole nearby, a yielding "
            "edge, pull in the plate's plane, stiffness by direction or other loads."};
  const bool numbers = std::any_of(causes.begin(), causes.end(),
                                   [](const Cause& cause) { return cause.corrected.has_value(); });
  return told(causes, numbers ? "The numbers do not make up for all of it."
                              : "By how much, no formula here says.");
}

}  // namespace crossgrain
