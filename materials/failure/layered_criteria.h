// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/failure/failure.h"

namespace crossgrain {

// The criteria of a printed solid that is isotropic in the layer. Stress [MPa] in material axes,
// order 11 22 33 23 13 12. Indices as in FailureMode; multipliers are infinity for no limit and
// take a held stress whose index is below 1.

double interlayer_index(const LayeredStrength& strength, const Vector6d& stress);
double in_layer_tension_index(const LayeredStrength& strength, const Vector6d& stress);
double in_layer_compression_index(const LayeredStrength& strength, const Vector6d& stress);
double build_compression_index(const LayeredStrength& strength, const Vector6d& stress);
double maximum_stress_index(const LayeredStrength& strength, const Vector6d& stress);

double interlayer_multiplier(const LayeredStrength& strength, const Vector6d& held,
                             const Vector6d& scaling);
double in_layer_tension_multiplier(const LayeredStrength& strength, const Vector6d& held,
                                   const Vector6d& scaling);
double in_layer_compression_multiplier(const LayeredStrength& strength, const Vector6d& held,
                                       const Vector6d& scaling);
double build_compression_multiplier(const LayeredStrength& strength, const Vector6d& held,
                                    const Vector6d& scaling);
double maximum_stress_multiplier(const LayeredStrength& strength, const Vector6d& held,
                                 const Vector6d& scaling);

/// Tsai-Wu polynomial l(s) + q(s,s) of the solid that is isotropic in the layer. Its seven
/// constants follow from the five strengths:
///   F1 = F2 = 1/Xt - 1/Xc,  F3 = 1/Zt - 1/Zc,  F11 = F22 = 1/(Xt Xc),  F33 = 1/(Zt Zc),
///   F44 = F55 = 1/Sz^2,  F12 = -F11/2,  F13 = F23 = -sqrt(F11 F33)/2,
///   F66 = 2 (F11 - F12) = 3 F11   (a turn about the build axis changes nothing).
/// The three couplings at -sqrt(Fii Fjj)/2 together make the normal part singular: q vanishes along
/// s11 = s22 = s33 sqrt(F33/F11) and a stress along it may grow without limit.
/// Source: Tsai & Wu, J. Compos. Mater. 5 (1971) 58-80 (from memory).
double tsai_wu_index(const LayeredStrength& strength, const Vector6d& stress);
/// Without held stress R = 2 / (l + sqrt(l^2 + 4 q)).
double tsai_wu_multiplier(const LayeredStrength& strength, const Vector6d& held,
                          const Vector6d& scaling);

}  // namespace crossgrain
