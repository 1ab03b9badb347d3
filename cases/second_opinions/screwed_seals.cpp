// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/screwed_seals.h"

#include <algorithm>

#include "cases/face_choice/face_choice.h"
#include "cases/simple_shapes/circles.h"

namespace crossgrain {
namespace {

double mean_distance(const std::vector<Hole>& holes, const Eigen::Vector3d& centre,
                     const Eigen::Vector3d& axis) {
  double sum = 0.0;
  for (const Hole& hole : holes) {
    const Eigen::Vector3d from = hole.mouth - centre;
    sum += (from - axis * axis.dot(from)).norm();
  }
  return sum / static_cast<double>(holes.size());
}

std::optional<ScrewedSeal> seal_on(const std::vector<FaceId>& faces, const Geometry& geometry,
                                   ScrewedSeal seal) {
  if (faces.size() != 1 || seal.holes.empty()) return std::nullopt;
  const CadFace& face = geometry.face(faces.front());
  if (face.kind != SurfaceKind::plane) return std::nullopt;
  const auto outer = circle_of(geometry, face, 0), inner = circle_of(geometry, face, 1);
  if (!outer || !inner) return std::nullopt;
  seal.body = face.body;
  seal.face = face.id;
  seal.centre = inner->centre;
  seal.axis = face.axis;
  seal.inner_radius = inner->radius;
  seal.outer_radius = outer->radius;
  seal.screw_circle_radius = mean_distance(seal.holes, seal.centre, seal.axis);
  return seal;
}

/// Of joined bodies: screws' forces in the states that the case's scaling part is made of.
double gain_in_states(const ScrewedSeal& seal, const LoadCase& load_case,
                      const JoinedBodies& joined, const ElementarySolution& solution) {
  const auto group = std::ranges::find(joined.screws, seal.bolts->name, &JoinedScrews::name);
  if (group == joined.screws.end()) return 0.0;
  const auto& part = seal.pressure->scales ? load_case.scaling : load_case.held;
  double gain = 0.0;
  for (std::size_t state = 0; state < part.size(); ++state) {
    if (part[state] == 0.0) continue;
    for (std::size_t i = group->first; i < group->first + group->count; ++i)
      gain += part[state] * solution.joint_states.at(state).screws.at(i).force;
  }
  return gain;
}

}  // namespace

std::vector<ScrewedSeal> screwed_seals(const CaseFile& case_file, const Geometry& geometry,
                                       const Features& features) {
  std::vector<ScrewedSeal> seals;
  for (const GasketSpec& gasket : case_file.gaskets) {
    const auto bolts = std::ranges::find(case_file.bolts, gasket.bolts, &BoltSpec::name);
    const auto pressure =
        std::ranges::find(case_file.pressures, gasket.pressure, &PressureLoad::name);
    if (bolts == case_file.bolts.end() || pressure == case_file.pressures.end()) continue;
    ScrewedSeal seal{};
    seal.gasket = &gasket;
    seal.bolts = &*bolts;
    seal.pressure = &*pressure;
    seal.holes = choose_faces(geometry, features, bolts->thread).holes;
    std::vector<FaceChoice> sides = {gasket.faces};
    if (gasket.between) sides.push_back(gasket.between->mate);
    for (const FaceChoice& side : sides)
      if (auto on_side = seal_on(choose_faces(geometry, features, side).faces, geometry, seal))
        seals.push_back(std::move(*on_side));
  }
  return seals;
}

double screws_gain(const ScrewedSeal& seal, const LoadCase& load_case, const Loading& loading,
                   const ElementarySolution& solution) {
  if (loading.joined) return gain_in_states(seal, load_case, *loading.joined, solution);
  const auto joint = std::ranges::find(loading.joints, seal.gasket->name, &JointLoads::name);
  if (joint == loading.joints.end()) return 0.0;
  return (load_case.scaling.at(joint->share) + load_case.held.at(joint->share)) * joint->opening_N;
}

}  // namespace crossgrain
