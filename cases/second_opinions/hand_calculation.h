// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "cases/case_file/case_file.h"
#include "cases/judgement/run_result.h"
#include "materials/card_file/card.h"
#include "materials/conditions/material.h"

namespace crossgrain {

/// The one strength that a hand calculation takes.
struct HandStrength {
  double value;  ///< [MPa]
  std::string words;
};

/// The trade takes the XY tensile strength as the sheet gives it (a ductile solid: its yield
/// strength), without knock-downs.
HandStrength hand_strength(const MaterialCard& card, Moisture moisture);

/// What a textbook says of the shape that fits. The magnitude of the pressure counts: under vacuum
/// the stress has the other sign.
/// @param pressure  gauge [MPa].  @param nu  Poisson's ratio, for the supported round panel.
/// @throws std::invalid_argument naming the place in the case file if the shape has no size.
HandCalculationResult hand_calculation(const HandCalculationSpec& spec, double pressure, double nu,
                                       const HandStrength& strength);

/// The factor of the same shape taken thick-walled (Lame), where the spec is a thin one; nothing
/// for the others.
std::optional<double> thick_wall_factor(const HandCalculationSpec& spec, double pressure,
                                        const HandStrength& strength);

/// Factors on the way from the hand calculation to the full answer, each with one thing more taken
/// into account. Absent: not computed, or no limit found; the chain skips it.
struct ChainFactors {
  double hand = 0.0;  ///< with HandStrength, like the next three
  /// Lame in place of a thin wall.
  std::optional<double> thick_wall = {};
  /// Finite elements with isotropic_with_hand_strength.
  std::optional<double> real_shape_isotropic = {};
  /// Finite elements with with_hand_strength: the printed stiffness.
  std::optional<double> real_shape_anisotropic = {};
  /// Strengths by direction at service conditions.
  std::optional<double> full = {};
};

/// Fill in `chain` and `sentence`.
void add_chain(HandCalculationResult& result, const ChainFactors& factors);

// The materials of the steps, for the solver: stiffness as named, one strength for all directions,
// judged by the largest tension. Solids without layers (a metal lid) stay as they are.

/// XY modulus in every direction, the hand calculation's strength.
SolidMaterial isotropic_with_hand_strength(const SolidMaterial& printed,
                                           const HandStrength& strength);
/// The printed stiffness, the hand calculation's strength in every direction.
SolidMaterial with_hand_strength(const SolidMaterial& printed, const HandStrength& strength);
/// The trade's shortcut: Z modulus and Z tensile strength in every direction.
SolidMaterial isotropic_with_Z(const SolidMaterial& printed);

}  // namespace crossgrain
