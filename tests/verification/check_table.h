// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace crossgrain::verification {

/// Sections of the table, in its order.
enum class Chapter {
  patch,
  standard_benchmarks,
  cylinders_and_spheres,
  wound_cylinders,
  off_axis_bars,
  plates,
  stress_concentrations,
  surface_stress,
  bead_fit,
  error_estimates,
  criteria,
  screws,
  gaskets,
  contact,
  convergence,
  invariance,
  same_mesh,
  trade_facts,
};

/// How far the obtained value may lie from the target.
struct Tolerance {
  enum class Kind {
    fraction,  ///< of the target's magnitude
    absolute,  ///< in the unit of the value
    factor,    ///< obtained / target between 1/size and size
  };
  double size;
  Kind kind;
  std::string reason;
};
Tolerance fraction(double size, std::string reason);
Tolerance absolute(double size, std::string reason);
Tolerance within_factor(double size, std::string reason);

/// A value known from outside this project.
struct Check {
  Chapter chapter;
  std::string id;      ///< unique: "B3 closed u(20)"
  std::string what;    ///< quantity, place and unit, in words
  std::string source;  ///< publication; "exact: ..." closed form; "common practice, no source"
  double target;
  Tolerance tolerance;
};

/// Assert that a computed value is finite and within tolerance of its target, and keep it as a row
/// of the table. Fails the running test otherwise.
/// @throws std::logic_error if the id has a row already.
void check(const Check& check, double obtained);

}  // namespace crossgrain::verification
