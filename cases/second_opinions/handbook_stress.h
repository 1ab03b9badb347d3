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

/// Along the axis of a cylinder between radii a and b whose closed ends it carries,
/// (p_inside a^2 - p_outside b^2) / (b^2 - a^2) (Lame).
double closed_cylinder_axial_stress(double inside, double outside, double a, double b);
/// Hoop stress at radius r of a wall between a and b, pressures inside and outside (Lame).
double cylinder_hoop_stress(double inside, double outside, double a, double b, double r);
double sphere_hoop_stress(double inside, double outside, double a, double b, double r);

/// At the clamped edge, 0.75 p a^2 / t^2.
double clamped_round_plate_stress(double p, double radius, double thickness);
/// At the centre, 3 (3 + nu) p a^2 / (8 t^2).
double supported_round_plate_stress(double p, double radius, double thickness, double nu);

/// Radial stress at radius r, on the side away from the pressure: (3 p / 8 t^2) times
/// (1 + nu) a^2 - (3 + nu) r^2 with the edge clamped, (3 + nu) (a^2 - r^2) with it supported.
double round_plate_radial_stress(bool clamped, double p, double radius, double thickness, double nu,
                                 double r);
/// What the code's rule for flat covers t = d (C p / S)^(1/2) makes of the stress, with C = 0.3 and
/// without the screws' moment. Source: ASME BPVC VIII-1, UG-34 (from memory).
double flat_cover_rule_stress(double p, double diameter, double thickness);
/// What the rule adds for screws outside the seal, 1.9 W h_G / (S d^3) under the root: 1.9 W h_G /
/// (d t^2).
/// @param pull  W, of all screws [N].  @param lever  h_G, from the seal to the screw circle [mm].
double flat_cover_rule_screw_stress(double pull, double lever, double diameter, double thickness);
/// The same for a rectangular cover, times Z = 3.4 - 2.4 (short / long side), at most 2.5.
double flat_rectangular_cover_rule_stress(double p, double short_side, double long_side,
                                          double thickness);

/// At the middle of the long clamped edge, beta_1 p b^2 / t^2, b the short side; beta_1 for nu 0.3,
/// interpolated in b / a.
double clamped_rectangular_plate_stress(double p, double short_side, double long_side,
                                        double thickness);
/// At the centre of the clamped one, beta_2 p b^2 / t^2, likewise.
double clamped_rectangular_plate_centre_stress(double p, double short_side, double long_side,
                                               double thickness);
/// At a distance x from the long clamped edge, of that at the edge: as in a strip,
/// 1 - 6 x / b + 6 (x / b)^2.
double share_of_clamped_edge(double x, double short_side);
/// At the centre, beta p b^2 / t^2, likewise.
double supported_rectangular_plate_stress(double p, double short_side, double long_side,
                                          double thickness);

}  // namespace crossgrain
