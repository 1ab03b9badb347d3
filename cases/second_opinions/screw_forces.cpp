// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/screw_forces.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/face_choice/face_choice.h"
#include "cases/simple_shapes/circles.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

struct Ring {
  double inner, outer;  // diameters [mm]
};

std::optional<Ring> ring_of(const std::vector<FaceId>& faces, const Geometry& geometry) {
  if (faces.size() != 1) return std::nullopt;
  const CadFace& face = geometry.face(faces.front());
  const auto outer = circle_of(geometry, face, 0), inner = circle_of(geometry, face, 1);
  if (!outer || !inner) return std::nullopt;
  return Ring{2.0 * inner->radius, 2.0 * outer->radius};
}

/// On what closes the openings that end at these faces [N].
double thrust_at(const std::vector<FaceId>& faces, const PressureLoad& pressure,
                 const Geometry& geometry, const Features& features) {
  const auto chosen = choose_faces(geometry, features, pressure.faces);
  Eigen::Vector3d area = Eigen::Vector3d::Zero();
  if (!chosen.wetted) return 0.0;
  for (const Opening& opening : chosen.wetted->openings)
    if (std::ranges::find(faces, opening.beyond) != faces.end()) area += opening.vector_area;
  return std::abs(pressure.value) * area.norm();
}

std::string difference(const HandScrewForce& force, const Ring& ring, double middle) {
  constexpr double agreed = 0.15;
  const double ratio = force.joint_N / force.hand_N;
  if (!(std::abs(ratio - 1.0) > agreed)) return "";
  const double by_edge = ring.inner * ring.inner / (middle * middle);
  if (std::abs(ratio / by_edge - 1.0) > agreed)
    return "not explained by where the fluid ends under the gasket";
  return "the analysis lets the fluid end at the gasket's inner edge, " + words(ring.inner, 3) +
         " mm across, the hand calculation in its middle";
}

}  // namespace

std::vector<HandScrewForce> compare_screw_forces(const CaseFile& case_file,
                                                 const Geometry& geometry,
                                                 const Features& features) {
  std::vector<HandScrewForce> forces;
  for (const GasketSpec& gasket : case_file.gaskets) {
    const auto faces = choose_faces(geometry, features, gasket.faces).faces;
    const auto ring = ring_of(faces, geometry);
    const auto bolts = std::ranges::find(case_file.bolts, gasket.bolts, &BoltSpec::name);
    const auto pressure =
        std::ranges::find(case_file.pressures, gasket.pressure, &PressureLoad::name);
    if (!ring || bolts == case_file.bolts.end() || pressure == case_file.pressures.end()) continue;
    const auto holes = choose_faces(geometry, features, bolts->thread).holes;
    const auto count = static_cast<double>(holes.size());
    const double middle = 0.5 * (ring->inner + ring->outer);
    HandScrewForce force;
    force.screws = bolts->name;
    force.count = static_cast<int>(holes.size());
    force.seal_diameter_mm = middle;
    force.pressure_MPa = pressure->value;
    force.preload_N = bolts->preload_nominal;
    force.hand_N = std::abs(pressure->value) * 0.25 * std::numbers::pi * middle * middle / count;
    force.joint_N = thrust_at(faces, *pressure, geometry, features) / count;
    force.differs = difference(force, *ring, middle);
    forces.push_back(force);
  }
  return forces;
}

}  // namespace crossgrain
