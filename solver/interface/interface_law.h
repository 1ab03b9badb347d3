// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <limits>
#include <variant>

namespace crossgrain {

/// The faces move as one, as meshed, whatever their distance.
struct Tied {};

/// The faces press on each other where they meet and slide without friction.
struct Unilateral {};

/// A bedding between the faces that is pressed, and never pulled.
struct Bedding {
  double modulus;    ///< apparent, of the loaded form, E_a [MPa]
  double thickness;  ///< unloaded [mm]
  /// Pressure by squeeze as an ideal rubber's, (E_a / 3) (1 / l^2 - l) with l = 1 - squeeze;
  /// otherwise E_a squeeze.
  bool stiffens = false;
  /// Shear modulus of a bedding that sticks to both faces; it holds them in shear wherever it lies,
  /// pressed or not. 0: they slide [MPa].
  double shear_modulus = 0.0;
  /// From here on a stop (a limiter, a groove's shoulder) takes what more there is [mm].
  double stop_squeeze = std::numeric_limits<double>::infinity();
};

using InterfaceLaw = std::variant<Tied, Unilateral, Bedding>;

/// What is known of a point before its law is asked.
struct PointMotion {
  Eigen::Vector3d jump;    ///< of the second face away from the first [mm]
  Eigen::Vector3d normal;  ///< from the first to the second
  double clearance;        ///< before any displacement; negative: an interference [mm]
  double stiffness;        ///< per area, of what pushes or ties directly [N/mm^3]
  Eigen::Vector3d held;    ///< traction held from earlier augmentations [MPa]

  double gap() const { return clearance + jump.dot(normal); }
};

enum class PointBranch { open, pressed, stopped };

/// Traction that pulls the first face along with the jump, and its derivative by the jump.
struct PointResponse {
  Eigen::Vector3d traction;  ///< [MPa]; pressure is minus its normal part
  Eigen::Matrix3d tangent;   ///< [N/mm^3], symmetric positive semi-definite
  PointBranch branch;
};

/// The law's answer. It is the gradient of a convex function of the jump, so that the iteration
/// over all points has one solution.
PointResponse respond(const InterfaceLaw& law, const PointMotion& motion);

/// As if no point could open: where an iteration begins, so that nothing is loose.
PointResponse respond_closed(const InterfaceLaw& law, const PointMotion& motion);

/// @throws std::invalid_argument naming the quantity that is not positive, and its value.
void require_sound(const InterfaceLaw& law);

}  // namespace crossgrain
