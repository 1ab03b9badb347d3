// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

// Largest tensile stress [MPa] of simple isotropic shapes under pressure p [MPa]; lengths in mm.
// Source: Roark's Formulas for Stress and Strain, 7th ed.: Table 13.1 (thin shells), Table 13.5
// (thick ones, Lame), Table 11.2 (round plates), Table 11.4 (rectangular plates), from memory.

/// Hoop stress p r / t, r the inner radius as the trade takes it.
double thin_cylinder_stress(double p, double inner_radius, double wall);
/// p r / (2 t).
double thin_sphere_stress(double p, double inner_radius, double wall);

/// Hoop stress at the bore, p (b^2 + a^2) / (b^2 - a^2).
double thick_cylinder_stress(double p, double inner_radius, double wall);
/// Hoop stress at the bore, p (2 a^3 + b^3) / (2 (b^3 - a^3)).
double thick_sphere_stress(double p, double inner_radius, double wall);

/// At the clamped edge, 0.75 p a^2 / t^2.
double clamped_round_plate_stress(double p, double radius, double thickness);
/// At the centre, 3 (3 + nu) p a^2 / (8 t^2).
double supported_round_plate_stress(double p, double radius, double thickness, double nu);

/// At the middle of the long clamped edge, beta_1 p b^2 / t^2, b the short side; beta_1 for nu 0.3,
/// interpolated in b / a.
double clamped_rectangular_plate_stress(double p, double short_side, double long_side,
                                        double thickness);
/// At the centre, beta p b^2 / t^2, likewise.
double supported_rectangular_plate_stress(double p, double short_side, double long_side,
                                          double thickness);

}  // namespace crossgrain
