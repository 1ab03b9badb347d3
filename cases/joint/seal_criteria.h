// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "cases/joint/limit_standing.h"

namespace crossgrain {

/// What a flat gasket needs: contact over fluid pressure in service, and to be seated at all.
struct GasketConstants {
  double m;  ///< [-]
  double y;  ///< [MPa]
};

/// Of rubber without fabric: below 75 Shore A 0.5 and 0, from there on 1.0 and 1.38 MPa.
/// Source: ASME VIII-1 Appendix 2, Table 2-5.1.
GasketConstants rubber_gasket_constants(double shore_A);

/// Contact pressure that seals: max(2 m, 1 + margin) p. m alone would let the contact fall below
/// the fluid's pressure; a place that is pressed less than that lifts.
/// @param pressure  of the fluid [MPa]  @param margin  over it, e.g. 0.5 [-]  @return [MPa]
/// Source: ASME VIII-1 Appendix 2 (2 m p over the effective width); the lower bound is common
/// practice, no source.
double contact_in_service(double pressure, double m, double margin);

/// What must be reached when the screws are tight and nothing presses yet.
struct AssemblyContact {
  double pressure;  ///< never zero [MPa]
  LimitStanding standing;
  std::string rule;
};

/// The greater of y and the pressure of the stated squeeze; where neither says anything, a squeeze
/// of 20 % (of flat soft gaskets 20 to 30 % is usual, from memory).
/// @param squeeze           stated, share of the thickness [-]
/// @param apparent_modulus  of the gasket in its form [MPa]
AssemblyContact contact_at_assembly(double y, std::optional<double> squeeze,
                                    double apparent_modulus);

}  // namespace crossgrain
