// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/screw_forces.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/face_choice/face_choice.h"
#include "cases/second_opinions/causes.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

/// On what closes the openings that end at a seal [N].
double thrust_at(const ScrewedSeal& seal, const Geometry& geometry, const Features& features) {
  const auto chosen = choose_faces(geometry, features, seal.pressure->faces);
  Eigen::Vector3d area = Eigen::Vector3d::Zero();
  if (!chosen.wetted) return 0.0;
  for (const Opening& opening : chosen.wetted->openings)
    if (opening.beyond == seal.face) area += opening.vector_area;
  return std::abs(seal.pressure->value) * area.norm();
}

std::string difference(const HandScrewForce& force, double thrust, const ScrewedSeal& seal) {
  const double ratio = force.joint_N / force.hand_N;
  if (!(std::abs(ratio - 1.0) > agreed)) return "";
  const double by_edge = std::pow(seal.inner_radius / seal.middle_radius(), 2);
  const std::string edge = "the analysis lets the fluid end at the gasket's inner edge, " +
                           words(2.0 * seal.inner_radius, 3) +
                           " mm across, the hand calculation in its middle";
  if (std::abs(ratio / by_edge - 1.0) <= agreed) return edge;
  if (force.solved && force.joint_N * force.count < thrust)
    return "the gasket gives up the rest of the thrust, " +
           words(100.0 * (1.0 - force.joint_N * force.count / thrust), 2) +
           " %, before the screws feel it; by hand they carry all of it";
  return "not explained by where the fluid ends under the gasket";
}

HandScrewForce screw_force(const AnsweredSeal& answered, bool solved, const Geometry& geometry,
                           const Features& features) {
  const ScrewedSeal& seal = answered.seal;
  const double thrust = thrust_at(seal, geometry, features);
  HandScrewForce force{};
  force.screws = seal.bolts->name;
  force.count = static_cast<int>(seal.holes.size());
  const double count = force.count, pressure = seal.pressure->value;
  force.pressure_MPa = pressure;
  force.seal_diameter_mm = 2.0 * seal.middle_radius();
  force.circle_mm = 2.0 * seal.screw_circle_radius;
  force.pitch_mm = std::numbers::pi * force.circle_mm / count;
  force.hand_N = std::abs(pressure) * std::numbers::pi * std::pow(seal.middle_radius(), 2) / count;
  force.hand_N_per_mm = force.hand_N / force.pitch_mm;
  force.solved = solved;
  force.joint_N = (solved ? std::abs(answered.screws_gain) : thrust) / count;
  force.preload_N = seal.bolts->preload_nominal;
  force.hand_opening_MPa = std::abs(pressure) * force.preload_N / force.hand_N;
  force.joint_opening_MPa =
      thrust > 0.0 ? std::abs(pressure) * force.preload_N * count / thrust : 0.0;
  force.differs = difference(force, thrust, seal);
  return force;
}

}  // namespace

std::vector<HandScrewForce> compare_screw_forces(const std::vector<AnsweredSeal>& seals,
                                                 bool solved, const Geometry& geometry,
                                                 const Features& features) {
  std::vector<HandScrewForce> forces;
  const GasketSpec* last = nullptr;
  for (const AnsweredSeal& answered : seals) {
    if (answered.seal.gasket == last) continue;
    last = answered.seal.gasket;
    forces.push_back(screw_force(answered, solved, geometry, features));
  }
  return forces;
}

}  // namespace crossgrain
