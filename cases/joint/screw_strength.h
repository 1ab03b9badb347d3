// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// What a screw's steel stands.
struct ScrewStrength {
  std::string name;                    ///< "8.8", or "yield 500 MPa as given"
  double yield;                        ///< Rp0.2, for low classes the lower yield stress [MPa]
  std::optional<double> proof_stress;  ///< carried without lasting stretch, ISO 898-1 [MPa]
};

/// 4.8 to 12.9 of ISO 898-1, A2-50 to A4-80 of ISO 3506-1 (which states no proof load), from
/// memory; the proof loads of 8.8 and 10.9 and the yield of A2-70 are checked in the tests.
/// @throws std::invalid_argument naming the known classes.
ScrewStrength screw_class(std::string_view name);

/// "4.8, 5.8, ..."
std::string known_screw_classes();

/// A strength that the user states in place of a class.
/// @param yield  [MPa]
ScrewStrength given_screw_strength(double yield);

/// Pull that the screw must carry without lasting stretch: proof stress times stress area, or yield
/// times stress area where the standard states no proof load [N].
double proof_load(const ScrewStrength& strength, const ScrewSize& size);

}  // namespace crossgrain
