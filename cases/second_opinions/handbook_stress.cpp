// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/handbook_stress.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace crossgrain {
namespace {

/// One row of the table of rectangular plates.
struct PlateRow {
  double short_over_long;
  double beta;
};

// By falling b / a; the last row is the infinite strip, exact. Rows 4 and 5 of the supported plate
// after Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, Table 8 (from memory).
constexpr std::array<PlateRow, 10> supported_rows{{{1.0 / 1.0, 0.2873},
                                                   {1.0 / 1.2, 0.3761},
                                                   {1.0 / 1.4, 0.4533},
                                                   {1.0 / 1.6, 0.5174},
                                                   {1.0 / 1.8, 0.5691},
                                                   {1.0 / 2.0, 0.6101},
                                                   {1.0 / 3.0, 0.7132},
                                                   {1.0 / 4.0, 0.7410},
                                                   {1.0 / 5.0, 0.7476},
                                                   {0.0, 0.75}}};
constexpr std::array<PlateRow, 7> clamped_centre_rows{{{1.0 / 1.0, 0.1374},
                                                       {1.0 / 1.2, 0.1798},
                                                       {1.0 / 1.4, 0.2098},
                                                       {1.0 / 1.6, 0.2291},
                                                       {1.0 / 1.8, 0.2406},
                                                       {1.0 / 2.0, 0.2469},
                                                       {0.0, 0.25}}};
constexpr std::array<PlateRow, 7> clamped_rows{{{1.0 / 1.0, 0.3080},
                                                {1.0 / 1.2, 0.3836},
                                                {1.0 / 1.4, 0.4358},
                                                {1.0 / 1.6, 0.4685},
                                                {1.0 / 1.8, 0.4875},
                                                {1.0 / 2.0, 0.4977},
                                                {0.0, 0.5}}};

/// Cubic through the four nearest rows: a straight line would be off by 1 % near the square plate.
template <std::size_t N>
double interpolated(const std::array<PlateRow, N>& rows, double short_over_long) {
  assert(short_over_long >= 0.0 && short_over_long <= 1.0);
  std::size_t below = 1;
  while (below + 1 < N && rows[below].short_over_long > short_over_long) ++below;
  const std::size_t first = std::clamp<std::size_t>(below, 2, N - 2) - 2;
  double beta = 0.0;
  for (std::size_t i = first; i < first + 4; ++i) {
    double weight = 1.0;
    for (std::size_t j = first; j < first + 4; ++j)
      if (j != i)
        weight *= (short_over_long - rows[j].short_over_long) /
                  (rows[i].short_over_long - rows[j].short_over_long);
    beta += weight * rows[i].beta;
  }
  return beta;
}

double square(double x) { return x * x; }
double cube(double x) { return x * x * x; }

}  // namespace

double thin_cylinder_stress(double p, double inner_radius, double wall) {
  return p * inner_radius / wall;
}

double thin_sphere_stress(double p, double inner_radius, double wall) {
  return p * inner_radius / (2.0 * wall);
}

double thick_cylinder_stress(double p, double inner_radius, double wall) {
  const double a2 = square(inner_radius);
  const double b2 = square(inner_radius + wall);
  return p * (b2 + a2) / (b2 - a2);
}

double thick_sphere_stress(double p, double inner_radius, double wall) {
  const double a3 = cube(inner_radius);
  const double b3 = cube(inner_radius + wall);
  return p * (2.0 * a3 + b3) / (2.0 * (b3 - a3));
}

double closed_cylinder_axial_stress(double inside, double outside, double a, double b) {
  return (inside * square(a) - outside * square(b)) / (square(b) - square(a));
}

double cylinder_hoop_stress(double inside, double outside, double a, double b, double r) {
  const double a2 = square(a), b2 = square(b), r2 = square(r);
  return (inside * a2 * (1.0 + b2 / r2) - outside * b2 * (1.0 + a2 / r2)) / (b2 - a2);
}

double sphere_hoop_stress(double inside, double outside, double a, double b, double r) {
  const double a3 = cube(a), b3 = cube(b), r3 = cube(r);
  return (inside * a3 * (1.0 + 0.5 * b3 / r3) - outside * b3 * (1.0 + 0.5 * a3 / r3)) / (b3 - a3);
}

double clamped_round_plate_stress(double p, double radius, double thickness) {
  return 0.75 * p * square(radius / thickness);
}

double supported_round_plate_stress(double p, double radius, double thickness, double nu) {
  return 0.375 * (3.0 + nu) * p * square(radius / thickness);
}

double round_plate_radial_stress(bool clamped, double p, double radius, double thickness, double nu,
                                 double r) {
  const double of_radius = (clamped ? 1.0 + nu : 3.0 + nu) * square(radius);
  return 0.375 * p * (of_radius - (3.0 + nu) * square(r)) / square(thickness);
}

double flat_cover_rule_stress(double p, double diameter, double thickness) {
  return 0.3 * p * square(diameter / thickness);
}

double flat_cover_rule_screw_stress(double pull, double lever, double diameter, double thickness) {
  return 1.9 * pull * lever / (diameter * square(thickness));
}

double flat_rectangular_cover_rule_stress(double p, double short_side, double long_side,
                                          double thickness) {
  const double z = std::min(2.5, 3.4 - 2.4 * short_side / long_side);
  return z * flat_cover_rule_stress(p, short_side, thickness);
}

double clamped_rectangular_plate_centre_stress(double p, double short_side, double long_side,
                                               double thickness) {
  return interpolated(clamped_centre_rows, short_side / long_side) * p *
         square(short_side / thickness);
}

double share_of_clamped_edge(double x, double short_side) {
  const double share = x / short_side;
  return 1.0 - 6.0 * share + 6.0 * square(share);
}

double clamped_rectangular_plate_stress(double p, double short_side, double long_side,
                                        double thickness) {
  return interpolated(clamped_rows, short_side / long_side) * p * square(short_side / thickness);
}

double supported_rectangular_plate_stress(double p, double short_side, double long_side,
                                          double thickness) {
  return interpolated(supported_rows, short_side / long_side) * p * square(short_side / thickness);
}

}  // namespace crossgrain
