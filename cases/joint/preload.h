// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// What turns a tightening torque into a screw's pull.
struct TighteningFriction {
  double thread;  ///< coefficient [-]
  double head;    ///< coefficient under the head [-]
};

/// Torque that gives a preload: M = F (0.159 P + 0.577 d2 mu_thread + DKm/2 mu_head), DKm the mean
/// diameter of the ring between clearance hole and head.
/// @param preload  [N]  @param head_diameter  outer diameter of that ring [mm]  @return [N mm]
/// Source: VDI 2230 and ISO 16047 (the form from memory, checked against a table in the tests).
double tightening_torque(double preload, const ScrewSize& size, double head_diameter,
                         const TighteningFriction& friction);

/// The preload that a torque gives, the same relation turned round.
/// @param torque  [N mm]  @return [N]
double preload_from_torque(double torque, const ScrewSize& size, double head_diameter,
                           const TighteningFriction& friction);

/// The part of the tightening torque that turns the thread: pitch and friction there. An insert
/// must hold it against spinning.
/// @param preload  [N]  @return [N mm]
double thread_torque(double preload, const ScrewSize& size, double thread_friction);

/// Ends of a preload whose greatest and least value are in the ratio alpha_A and lie evenly about
/// the nominal one (VDI 2230).
struct PreloadRange {
  double least;     ///< [N]
  double nominal;   ///< [N]
  double greatest;  ///< [N]
};

/// Preload of all screws within that range.
enum class PreloadLevel { least, nominal, greatest };
/// "least", "nominal", "greatest"
std::string_view words(PreloadLevel level);

/// @return [N]
double preload_at(const PreloadRange& range, PreloadLevel level);

/// @param scatter  alpha_A = greatest / least, at least 1.
PreloadRange scattered_preload(double nominal, double scatter);

enum class Tightening { torque_wrench, by_feel };

/// The wide end of what is published for the method: torque wrench with estimated friction 1.6 to
/// 2.0 (VDI 2230), by feel 2.5 to 4 (from memory).
double usual_scatter(Tightening tightening);

}  // namespace crossgrain
