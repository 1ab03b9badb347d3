// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

// A flange as a ring of rectangular section that keeps its shape and turns by one angle all round.
// Source: Timoshenko, Strength of Materials, Part II, 3rd ed., circular rings twisted by couples
// spread along their centre line (from memory). Lengths in mm.

/// Section of a ring.
struct RingSize {
  double inner, outer;  ///< radii [mm]
  double height;        ///< along the axis [mm]
};

/// Stress round the ring on its flat sides at radius r, 6 (M / 2 pi) / (h^2 r ln(b / a)) [MPa].
/// @param moment  M, all round [N mm].
double turned_ring_stress(double moment, const RingSize& ring, double r);

/// Angle that it turns by, 12 (M / 2 pi) / (E h^3 ln(b / a)) [rad].
double ring_turn(double moment, const RingSize& ring, double E);

/// How a ring moves, times Young's modulus.
struct RingMotion {
  double turn;      ///< E theta, lifting its outer edge [MPa]
  double widening;  ///< E u of its section's middle [N/mm]

  /// Stress round the ring at radius r on the side away from the seal [MPa].
  double stress(const RingSize& ring, double r) const {
    return (turn * 0.5 * ring.height + widening) / r;
  }
};

/// A long tube whose end a ring is.
struct TubeUnderRing {
  double radius;  ///< R, to the middle of its wall [mm]
  double wall;    ///< t [mm]
  bool closed;    ///< at its other end
};

/// The motion of a ring that turns and widens as one with the end of a tube, under a moment and a
/// pressure in both: the least energy of the ring, ((b - a) h u^2 / R_c + h^3 ln(b / a) theta^2 /
/// 12) / 2 R, and of a long tube moved at its end, D beta^3 (w^2 + (w + theta / beta)^2), w = u +
/// theta h / 2 less what the pressure alone widens it by, beta^4 = 3 (1 - nu^2) / (R t)^2.
/// Source of the tube's: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, long
/// cylindrical shell loaded at its edge (from memory).
RingMotion ring_on_tube(double moment, double pressure, const RingSize& ring,
                        const TubeUnderRing& tube, double nu);

/// What a fluid pushes off turns a flange with: its thrust on the closed end, pulled down by the
/// tube's wall, and its push on the flange's own face, both against screws and seal outside.
struct FlangeThrust {
  double pressure;        ///< p [MPa]
  double bore_radius;     ///< to which the end is closed [mm]
  double wall_radius;     ///< R, to the middle of the wall that carries the end [mm]
  double seal_radius;     ///< at which the fluid ends on the flange [mm]
  double counter_radius;  ///< where screws and seal answer, in the mean [mm]
  bool closed_end;        ///< else the end's thrust is carried elsewhere

  double on_end() const;   ///< [N]
  double on_face() const;  ///< [N]
  double moment() const;   ///< all round, positive where it lifts the flange's edge [N mm]
};

}  // namespace crossgrain
