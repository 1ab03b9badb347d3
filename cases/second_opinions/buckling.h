// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Critical net external pressure [MPa] of perfect shells; mean radius r, wall t, length L [mm].

/// Long tube, p = E / (4 (1 - nu^2)) (t / r)^3. Source: Roark's Formulas, 7th ed., Table 15.2, case
/// 19a (from memory).
double long_tube_buckling_pressure(double E, double nu, double r, double t);

/// Tube with simply supported round ends under pressure on wall and ends, least over the number of
/// lobes. Source: R. von Mises, VDI-Zeitschrift 73 (1929) 750-755 (from memory).
double tube_buckling_pressure(double E, double nu, double r, double t, double L);

/// Sphere, p = 2 E / sqrt(3 (1 - nu^2)) (t / r)^2. Source: Zoelly 1915; Roark's Formulas, Table
/// 15.2 (from memory).
double sphere_buckling_pressure(double E, double nu, double r, double t);

/// Whether a shell of the hand calculation's shape stands the net external pressure, with a share
/// taken off for shells that are not round. Shapes without a formula are "not checked".
/// @param net_external_pressure  outside less inside [MPa]; buckling applies if positive.
/// @param sustained_modulus  the smaller one, after every knock-down [MPa].
BucklingResult check_buckling(const HandCalculationSpec& spec, double net_external_pressure,
                              double sustained_modulus, double nu);

}  // namespace crossgrain
