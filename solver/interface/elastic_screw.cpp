// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/elastic_screw.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <cmath>
#include <stdexcept>

namespace crossgrain {
namespace {

using Shares = std::vector<StiffnessAdditions::Spring::Share>;

/// sign * mean displacement . e - half of (rotation x arm) . e
void add_end(const AreaMotion& end, double sign, const Eigen::Vector3d& e,
             const Eigen::Vector3d& arm, Shares& shares) {
  // rotation = gyration^-1 sum moment x u, so that (rotation x arm) . e is the sum of
  // u . (turn x moment) with:
  const Eigen::Vector3d turn = end.gyration.inverse() * arm.cross(e);
  for (const auto& [node, weight, moment] : end.shares)
    shares.push_back({node, sign * weight * e - 0.5 * turn.cross(moment)});
}

void require_finite(double value, const std::string& screw, const char* what, const char* unit) {
  if (std::isfinite(value)) return;
  throw std::invalid_argument("screw \"" + screw + "\": its " + what + " is " +
                              std::to_string(value) + " " + unit);
}

}  // namespace

ScrewMotions screw_motions(const ElasticScrew& screw) {
  const Eigen::Vector3d arm = screw.head.centre - screw.thread.centre;
  const Eigen::Vector3d across = screw.axis.unitOrthogonal();
  const std::array<Eigen::Vector3d, 3> directions{screw.axis, across, screw.axis.cross(across)};
  ScrewMotions motions;
  for (int d = 0; d < 3; ++d) {
    add_end(screw.head, 1.0, directions[d], arm, motions[d]);
    add_end(screw.thread, -1.0, directions[d], arm, motions[d]);
  }
  return motions;
}

ScrewResponse respond(const ElasticScrew& screw, const ScrewCommand& command, double elongation) {
  if (command.tightening) return {command.force, 0.0};
  const double force =
      command.force + screw.axial_stiffness * (elongation - command.elongation - command.expansion);
  if (!(force > 0.0)) return {0.0, 0.0};
  return {force, screw.axial_stiffness};
}

void require_sound(const ElasticScrew& screw) {
  if (!(screw.axial_stiffness > 0.0)) {
    throw std::invalid_argument("screw \"" + screw.name + "\": its stiffness is " +
                                std::to_string(screw.axial_stiffness) +
                                " N/mm; it must be positive");
  }
  require_finite(screw.axial_stiffness, screw.name, "stiffness", "N/mm");
  require_finite(screw.lateral_stiffness, screw.name, "lateral stiffness", "N/mm");
  if (!(std::abs(screw.axis.norm() - 1.0) < 1e-9))
    throw std::invalid_argument("screw \"" + screw.name + "\": its axis is no unit vector");
}

void require_sound(const ScrewCommand& command, const ElasticScrew& screw) {
  require_finite(command.force, screw.name, "force", "N");
  require_finite(command.elongation, screw.name, "elongation", "mm");
  require_finite(command.expansion, screw.name, "expansion", "mm");
  if (command.force < 0.0)
    throw std::invalid_argument("screw \"" + screw.name + "\": its force is " +
                                std::to_string(command.force) + " N; a screw only pulls");
}

}  // namespace crossgrain
