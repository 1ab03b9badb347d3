// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/buckling.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// Share of a perfect tube's pressure that an oval one keeps, 0.4 to 0.5; common practice, no
// source.
constexpr double tube_share = 0.4;
// A sphere's dents cost it more; low end for shells as thick as printed ones after NASA SP-8032
// (from memory, doubtful).
constexpr double sphere_share = 0.2;

double square(double x) { return x * x; }

struct Shell {
  double critical;  // perfect shell [MPa]
  double share;
  const char* words;
};

/// No critical pressure where no formula fits or a size is missing.
Shell shell_of(const HandCalculationSpec& spec, double E, double nu) {
  constexpr Shell unknown{0.0, 0.0, ""};
  const double t = spec.wall;
  const double r = spec.inner_radius + 0.5 * t;
  if (!(spec.inner_radius > 0.0 && t > 0.0)) return unknown;
  switch (spec.shape) {
    case HandShape::thin_cylinder:
    case HandShape::thick_cylinder:
      if (spec.length > 0.0)
        return {tube_buckling_pressure(E, nu, r, t, spec.length), tube_share,
                "tube between round ends (von Mises 1929)"};
      return {long_tube_buckling_pressure(E, nu, r, t), tube_share,
              "long tube (no length is given)"};
    case HandShape::thin_sphere:
    case HandShape::thick_sphere:
      return {sphere_buckling_pressure(E, nu, r, t), sphere_share, "sphere"};
    default:
      return unknown;
  }
}

}  // namespace

double long_tube_buckling_pressure(double E, double nu, double r, double t) {
  return E / (4.0 * (1.0 - nu * nu)) * std::pow(t / r, 3);
}

double tube_buckling_pressure(double E, double nu, double r, double t, double L) {
  const double m = std::numbers::pi * r / L;
  double least = std::numeric_limits<double>::infinity();
  // A shell thick enough to print has few lobes; 60 covers r / t past 1000.
  for (int n = 2; n <= 60; ++n) {
    const double n2 = n * n;
    const double membrane = 1.0 / square(n2 / (m * m) + 1.0);
    const double bending = square(t / r) / (12.0 * (1.0 - nu * nu)) * square(n2 - 1.0 + m * m);
    least = std::min(least, E * t / r / (n2 - 1.0 + 0.5 * m * m) * (membrane + bending));
  }
  return least;
}

double sphere_buckling_pressure(double E, double nu, double r, double t) {
  return 2.0 * E / std::sqrt(3.0 * (1.0 - nu * nu)) * square(t / r);
}

BucklingResult check_buckling(const HandCalculationSpec& spec, double net_external_pressure,
                              double sustained_modulus, double nu) {
  BucklingResult result;
  result.applies = net_external_pressure > 0.0;
  if (!result.applies) {
    result.statement = "No net external pressure: buckling does not apply.";
    return result;
  }
  const Shell shell = shell_of(spec, sustained_modulus, nu);
  if (!(shell.critical > 0.0)) {
    result.statement =
        "Buckling not checked: there is a net external pressure, and the hand calculation names no "
        "cylinder or sphere near the part's shape.";
    return result;
  }
  const double real = shell.share * shell.critical;
  result.checked = true;
  result.critical_pressure_MPa = real;
  result.factor = real / net_external_pressure;
  result.statement = "Buckling of the nearest " + std::string(shell.words) +
                     ", as soft as sustained load makes it: " + words(*result.factor, 3) +
                     " times the net external pressure, with the " + words(shell.share, 3) +
                     " of a perfectly round one's pressure that a real one keeps.";
  return result;
}

}  // namespace crossgrain
