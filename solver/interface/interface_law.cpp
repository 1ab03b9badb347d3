// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/interface_law.h"

#include <cmath>
#include <sstream>
#include <stdexcept>

#include "solver/interface/bedding_curve.h"

namespace crossgrain {
namespace {

PointResponse pushed(const PointMotion& motion, double pressure, double slope, PointBranch branch) {
  return {-pressure * motion.normal, slope * motion.normal * motion.normal.transpose(), branch};
}

PointResponse nothing() {
  return {Eigen::Vector3d::Zero(), Eigen::Matrix3d::Zero(), PointBranch::open};
}

/// @param may_open  otherwise the pressure goes on below zero.
struct Response {
  const PointMotion& motion;
  bool may_open;

  PointResponse operator()(const Tied&) const {
    return {motion.held + motion.stiffness * motion.jump,
            motion.stiffness * Eigen::Matrix3d::Identity(), PointBranch::pressed};
  }

  PointResponse operator()(const Unilateral&) const {
    const double pressure = -motion.held.dot(motion.normal) - motion.stiffness * motion.gap();
    if (may_open && !(pressure > 0.0)) return nothing();
    return pushed(motion, pressure, motion.stiffness, PointBranch::pressed);
  }

  PointResponse operator()(const Bedding& bedding) const {
    PointResponse response = pressed(bedding);
    if (bedding.shear_modulus > 0.0) {
      const double shear = bedding.shear_modulus / bedding.thickness;
      const Eigen::Matrix3d across =
          Eigen::Matrix3d::Identity() - motion.normal * motion.normal.transpose();
      response.traction += shear * (across * motion.jump);
      response.tangent += shear * across;
    }
    return response;
  }

 private:
  PointResponse pressed(const Bedding& bedding) const {
    const double squeeze = -motion.gap();
    if (may_open && !(squeeze > 0.0)) return nothing();
    const auto [pressure, slope] = bedding_pressure(bedding, squeeze);
    const double beyond = squeeze - bedding.stop_squeeze;
    if (!(beyond > 0.0)) return pushed(motion, pressure, slope, PointBranch::pressed);
    return pushed(motion, pressure + motion.stiffness * beyond, slope + motion.stiffness,
                  PointBranch::stopped);
  }
};

void require_positive(double value, const char* what, const char* unit) {
  if (value > 0.0 && std::isfinite(value)) return;
  std::ostringstream message;
  message << "a gasket's " << what << " is " << value << " " << unit << "; it must be positive";
  throw std::invalid_argument(message.str());
}

}  // namespace

PointResponse respond(const InterfaceLaw& law, const PointMotion& motion) {
  return std::visit(Response{motion, true}, law);
}

PointResponse respond_closed(const InterfaceLaw& law, const PointMotion& motion) {
  return std::visit(Response{motion, false}, law);
}

void require_sound(const InterfaceLaw& law) {
  const auto* bedding = std::get_if<Bedding>(&law);
  if (!bedding) return;
  require_positive(bedding->modulus, "modulus", "MPa");
  require_positive(bedding->thickness, "thickness", "mm");
  if (!(bedding->shear_modulus >= 0.0 && std::isfinite(bedding->shear_modulus)))
    throw std::invalid_argument("a gasket's shear modulus is " +
                                std::to_string(bedding->shear_modulus) +
                                " MPa; it must be zero or positive");
  if (!(bedding->stop_squeeze > 0.0))
    throw std::invalid_argument("a gasket's stop lies at a squeeze of " +
                                std::to_string(bedding->stop_squeeze) + " mm; it must be positive");
}

}  // namespace crossgrain
