// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/flange_comparison.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/second_opinions/causes.h"
#include "cases/second_opinions/flange_formulas.h"
#include "cases/second_opinions/handbook_stress.h"
#include "cases/second_opinions/through_wall.h"
#include "cases/simple_shapes/flange_rings.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

struct TurnedFlange {
  FlangeRing ring;
  RingSize size;
  FlangeThrust thrust;
  double screws_share;  ///< of the thrust
  double pitch;         ///< from screw to screw [mm]
  double hand;          ///< [MPa]
};

std::optional<TurnedFlange> turned_flange(const AnsweredSeal& answered,
                                          const std::vector<SimpleShape>& shapes,
                                          const Geometry& geometry, double pressure) {
  const ScrewedSeal& seal = answered.seal;
  auto ring = flange_ring(geometry,
                          {.body = seal.body,
                           .face = seal.face,
                           .centre = seal.centre,
                           .axis = seal.axis,
                           .radius = seal.middle_radius(),
                           .holes = seal.holes},
                          shapes);
  if (!ring || !(seal.inner_radius >= ring->inner_radius)) return std::nullopt;
  TurnedFlange flange{.ring = std::move(*ring),
                      .size = {},
                      .thrust = {},
                      .screws_share = 0.0,
                      .pitch = 0.0,
                      .hand = 0.0};
  const FlangeRing& found = flange.ring;
  flange.size = {found.inner_radius, found.outer_radius, found.height};
  const double half_wall = found.tube ? 0.5 * found.tube->wall : 0.0;
  flange.thrust = {.pressure = pressure,
                   .bore_radius = found.inner_radius,
                   .wall_radius = found.inner_radius + half_wall,
                   .seal_radius = seal.inner_radius,
                   .counter_radius = seal.middle_radius(),
                   .closed_end = found.tube && found.tube->along_axis};
  const double whole = pressure * std::numbers::pi * seal.inner_radius * seal.inner_radius;
  flange.screws_share = std::clamp(std::abs(answered.screws_gain / whole), 0.0, 1.0);
  flange.thrust.counter_radius +=
      flange.screws_share * (seal.screw_circle_radius - seal.middle_radius());
  flange.pitch = 2.0 * seal.screw_circle_radius *
                 std::sin(std::numbers::pi / static_cast<double>(seal.holes.size()));
  flange.hand = turned_ring_stress(flange.thrust.moment(), flange.size, found.place_radius);
  return flange;
}

std::vector<Cause> causes_of(const TurnedFlange& flange, double nu, double printed,
                             const std::optional<LinearisedStress>& isotropic, bool other_loads) {
  const FlangeRing& ring = flange.ring;
  std::vector<Cause> causes;
  if (ring.tube) {
    const FlangeThrust& thrust = flange.thrust;
    const double held = ring_on_tube(thrust.moment(), thrust.pressure, flange.size,
                                     {thrust.wall_radius, ring.tube->wall, thrust.closed_end}, nu)
                            .stress(flange.size, ring.place_radius);
    causes.push_back(
        {"tube holds the ring",
         "The tube's wall turns and widens with the ring and takes part of the moment: "
         "as a ring on the end of a long shell, both pressed from inside, it makes " +
             percent(held / flange.hand) + ".",
         held});
  } else {
    const double widened = cylinder_hoop_stress(flange.thrust.pressure, 0.0, ring.inner_radius,
                                                ring.outer_radius, ring.place_radius);
    causes.push_back({"pressed in its bore",
                      "The fluid also widens the ring from its bore: Lame's stress makes " +
                          percent(1.0 + widened / flange.hand) + ".",
                      flange.hand + widened});
  }
  if (isotropic) {
    const double plain = isotropic->on(ring.place.side);
    if (std::abs(printed / plain - 1.0) > 0.5 * agreed)
      causes.push_back({"stiffness by direction",
                        "The print is not equally stiff in all directions: the same place in an "
                        "isotropic part makes " +
                            percent(plain / flange.hand) + ".",
                        flange.hand * printed / plain});
  }
  const double width = ring.outer_radius - ring.inner_radius;
  if (width > 2.0 * ring.height)
    causes.push_back(
        {"wide ring",
         "The ring is " + words(width / ring.height, 2) +
             " times as wide as high: its section bends, which the formula leaves out.",
         std::nullopt});
  if (flange.pitch > width + ring.height)
    causes.push_back({"few screws",
                      "The screws are " + words(flange.pitch, 3) +
                          " mm apart: between them the ring does not get the moment that the "
                          "formula spreads evenly.",
                      std::nullopt});
  if (other_loads)
    causes.push_back(
        {"other loads", "Loads other than the pressure act in this load case, too.", std::nullopt});
  return causes;
}

std::vector<HandInput> inputs_of(const TurnedFlange& flange) {
  const FlangeThrust& thrust = flange.thrust;
  return {{"p", thrust.pressure, "MPa"},        {"a", flange.size.inner, "mm"},
          {"b", flange.size.outer, "mm"},       {"h", flange.size.height, "mm"},
          {"r_s", thrust.seal_radius, "mm"},    {"R", thrust.wall_radius, "mm"},
          {"r_c", thrust.counter_radius, "mm"}, {"screws' share", flange.screws_share, ""},
          {"r", flange.ring.place_radius, "mm"}};
}

}  // namespace

std::vector<HandComparison> compare_flange_rings(const std::vector<AnsweredSeal>& seals,
                                                 const std::vector<SimpleShape>& shapes,
                                                 const Geometry& geometry,
                                                 const ComparedFields& fields) {
  const PointLocator locator(fields.mesh);
  std::vector<HandComparison> comparisons;
  for (const AnsweredSeal& answered : seals) {
    const auto flange = turned_flange(answered, shapes, geometry, fields.pressure);
    if (!flange || flange->hand == 0.0) continue;
    const WallLine& line = flange->ring.place;
    const auto found =
        linearised_along(line, {fields.mesh, locator, fields.points, fields.printed});
    if (!found) continue;
    const double surface = found->on(line.side);
    const Difference difference = difference_by(
        causes_of(*flange, fields.nu, surface,
                  linearised_along(line, {fields.mesh, locator, fields.points, fields.isotropic}),
                  fields.other_loads),
        surface, flange->hand,
        "the tube that holds the ring, the fluid in its bore, stiffness by direction, a wide "
        "section, few screws or other loads");
    comparisons.push_back(
        {.shape = "flange ring, " + words(2.0 * flange->size.inner, 3) + " to " +
                  words(2.0 * flange->size.outer, 3) + " mm, turned by the fluid's thrust",
         .faces = flange->ring.faces,
         .formula = "6 (M / 2 pi) / (h^2 r ln(b / a)), M = " +
                    std::string(flange->thrust.closed_end ? "p pi a^2 (r_c - R) + " : "") +
                    "p pi (r_s^2 - a^2) (r_c - (a + r_s) / 2), screws and seal answering at r_c "
                    "(Timoshenko, Strength of Materials II, ring twisted by couples, from memory)",
         .inputs = inputs_of(*flange),
         .hand_MPa = flange->hand,
         .beside = {},
         .from = line.from,
         .to = line.to,
         .membrane_MPa = found->membrane,
         .surface_MPa = surface,
         .differs = difference.names,
         .reason = difference.reason});
  }
  return comparisons;
}

}  // namespace crossgrain
