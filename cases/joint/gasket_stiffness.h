// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// What form a gasket has: it decides where rubber that is squeezed can go.
enum class GasketForm { disc, strip };

/// Whether its faces are held. Slipping ones (oil, grease, smooth flanges) let it flow: no
/// stiffening.
enum class GasketFaces { held, slipping };

struct GasketShape {
  GasketForm form;
  GasketFaces faces;
  double width;  ///< diameter of a disc; width of a strip, or of a ring between its circles [mm]
  double thickness;  ///< unloaded [mm]
};

/// Loaded face over free surface: d / 4 t of a disc, w / 2 t of a long strip or ring [-].
double shape_factor(const GasketShape& shape);

/// Stress over squeeze of a gasket at small squeeze. Held faces: E (1 + 2 S^2) of a disc,
/// (4/3) E (1 + S^2) of a strip or ring, each in series with the bulk modulus, beyond which no
/// shape stiffens; slipping faces: E.
/// @param modulus  E of the rubber [MPa]
/// @param bulk     modulus of compression; 2000 MPa is usual for rubber (from memory) [MPa]
/// @return E_a [MPa]
/// Source: Gent and Lindley, Proc. Inst. Mech. Eng. 173 (1959).
double apparent_modulus(const GasketShape& shape, double modulus, double bulk = 2000.0);

/// Pressure on the unloaded area that squeezes a gasket by a share of its thickness:
/// (E_a / 3) (1 / l^2 - l), l = 1 - squeeze; E_a squeeze where that is small.
/// @param squeeze  0 to 0.9 [-]  @return [MPa]
/// Source: the stress of an ideal rubber in simple compression (handbook form), with E_a in place
/// of E, as Gent and Lindley do.
double pressure_at_squeeze(double squeeze, double apparent_modulus);

/// The same turned round. @param pressure  [MPa]  @return squeeze [-]
double squeeze_at_pressure(double pressure, double apparent_modulus);

}  // namespace crossgrain
