// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

// A flange that presses a gasket between equal screws bows as a beam on an elastic foundation. Its
// bow number is phi = pitch (foundation / 4 E I)^(1/4), with the gasket's stiffness per length and
// the flange's in bending along the row.

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

/// phi of the row that is as uneven.
/// @param evenness  contact, or squeeze, between two screws over that at them [-]
/// @return 0 where it is even, `nothing_between` where the gasket is not pressed between the
/// screws; NaN of NaN.
double bow_number(double evenness);

/// phi from which on the gasket is not pressed half way between the screws.
constexpr double nothing_between = 4.73;

/// phi up to which the bow is held to be harmless.
constexpr double harmless_bow = 1.5;

/// Pitch up to which flanges are usually held to press evenly: 2 d + 6 t / (m + 0.5).
/// @param screw_diameter, flange_thickness  [mm]  @param m  of the gasket [-]  @return [mm]
/// A rule for metal flanges: phi tells more in plastic, where it scales with E^(1/4).
/// Source: pressure vessel practice, greatest bolt spacing (as the handbooks of flange design give
/// it).
double usual_pitch_limit(double screw_diameter, double flange_thickness, double m);

}  // namespace crossgrain
