// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/joint/torque_window.h"

namespace crossgrain {

/// What could open a window that is empty.
enum class WindowOpener { more_screws, thicker_flange, softer_gasket, metal_limiter };
/// "more_screws"
std::string_view name_of(WindowOpener opener);

/// What the rules below need to know.
struct OpenerFacts {
  int screws;                      ///< in the row
  std::optional<double> bow;       ///< phi of the flange; none: thickness and softness unknown
  double kept_after_losses = 1.0;  ///< share of the preload that creep and embedding leave [-]
};

struct OpenerAdvice {
  WindowOpener opener;
  bool opens;         ///< by itself
  std::string words;  ///< how much of it, or why it would not do
};

/// By simple scaling, each alone; a run with the change is what counts.
/// More screws: the seal needs a sum of forces, what fails at the top is one screw's force.
/// Thicker flange: phi falls as t^(-3/4), the contact between screws rises towards the mean.
/// Softer gasket: phi falls as the modulus to 1/4.
/// Metal limiter: no bearing pressure on the plastic, no loss by creep.
/// @return one for each, empty if the window is not
std::vector<OpenerAdvice> advise_openers(const std::vector<PreloadResponse>& responses,
                                         const PreloadScatter& scatter, const OpenerFacts& facts);

}  // namespace crossgrain
