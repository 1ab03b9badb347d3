// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// A flange that presses a gasket between equal screws: a beam on an elastic foundation.
struct FlangeBow {
  double pitch;              ///< from screw to screw [mm]
  double bending_stiffness;  ///< E I of the flange along the row; of two flanges that both bow,
                             ///< E1 I1 E2 I2 / (E1 I1 + E2 I2) [N mm^2]
  double foundation;         ///< of the gasket per length: E_a width / thickness [MPa]
};

/// phi = pitch (foundation / 4 E I)^(1/4); to 1.5 the gasket keeps about 95 % between the screws.
double bow_number(const FlangeBow& flange);

/// Contact of a long row of screws, over its mean at assembly. The fluid relieves all of the row
/// alike.
struct BowedContact {
  double at_screw;  ///< [-]
  double between;   ///< half way; negative: the gasket opens there [-]
};
/// @param bow      phi  @param relieved  share of the mean contact that the fluid takes off, 0 at
///                 assembly [-]
/// Source: Hetenyi, Beams on Elastic Foundation (1946), superposed for equal loads (slender beam).
BowedContact bowed_contact(double bow, double relieved);

/// phi up to which the bow is held to be harmless.
constexpr double harmless_bow = 1.5;

/// Pitch up to which flanges are usually held to press evenly: 2 d + 6 t / (m + 0.5).
/// @param screw_diameter, flange_thickness  [mm]  @param m  of the gasket [-]  @return [mm]
/// A rule for metal flanges: phi tells more in plastic, where it scales with E^(1/4).
/// Source: pressure vessel practice, greatest bolt spacing (as the handbooks of flange design give
/// it).
double usual_pitch_limit(double screw_diameter, double flange_thickness, double m);

}  // namespace crossgrain
