// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/joint_system.h"

namespace crossgrain {
namespace {

std::vector<InterfacePoint> points_of(const Joint& joint) {
  std::vector<InterfacePoint> points;
  for (const auto& pair : joint.pairs)
    points.insert(points.end(), pair.points.begin(), pair.points.end());
  return points;
}

std::vector<std::size_t> pair_of_points(const Joint& joint) {
  std::vector<std::size_t> numbers;
  for (std::size_t pair = 0; pair < joint.pairs.size(); ++pair)
    numbers.insert(numbers.end(), joint.pairs[pair].points.size(), pair);
  return numbers;
}

}  // namespace

JointSystem::JointSystem(const TetrahedronMesh& mesh, const Joint& joint)
    : mesh_(mesh),
      joint_(joint),
      points_(points_of(joint)),
      pair_(pair_of_points(joint)),
      blocks_(mesh, points_),
      clearance_(points_.size()) {
  held.setZero(3, points_.size());
  for (const auto& screw : joint.screws) screw_motions_.push_back(screw_motions(screw));
}

void JointSystem::set_load(const JointLoad& load) {
  commands_ = load.screws;
  for (std::size_t p = 0; p < size(); ++p) {
    const auto& pair = joint_.pairs[pair_[p]];
    clearance_[p] = pair.clearance;
    if (pair.distance_counts) clearance_[p] += points_[p].distance;
    if (!load.clearance_change.empty()) clearance_[p] += load.clearance_change[pair_[p]];
  }
}

void JointSystem::hold(const std::vector<PairState>& pairs) {
  Eigen::Index first = 0;
  for (const PairState& pair : pairs) {
    held.middleCols(first, pair.held.cols()) = pair.held;
    first += pair.held.cols();
  }
}

JointMotion JointSystem::motion(const Eigen::VectorXd& u) const {
  JointMotion motion{Eigen::Matrix3Xd(3, size()), Eigen::Matrix3Xd(3, screw_motions_.size())};
  for (std::size_t p = 0; p < size(); ++p) motion.jumps.col(p) = jump(mesh_, points_[p], u);
  for (std::size_t s = 0; s < screw_motions_.size(); ++s)
    for (int d = 0; d < 3; ++d) motion.screws(d, s) = along(screw_motions_[s][d], u);
  return motion;
}

double JointSystem::gap(std::size_t point, const Eigen::Vector3d& jump) const {
  return clearance_[point] + jump.dot(points_[point].normal);
}

PointMotion JointSystem::point_motion(std::size_t point, const Eigen::Vector3d& jump) const {
  return {jump, points_[point].normal, clearance_[point], points_[point].stiffness,
          held.col(point)};
}

PointResponse JointSystem::response(std::size_t point, const Eigen::Vector3d& jump) const {
  return respond(law(point), point_motion(point, jump));
}

ScrewResponse JointSystem::screw_response(std::size_t screw, double elongation) const {
  return respond(joint_.screws[screw], commands_[screw], elongation);
}

JointTangent JointSystem::tangent(const JointMotion& motion, bool closed) const {
  JointTangent tangent;
  tangent.traction.resize(3, size());
  for (std::size_t p = 0; p < size(); ++p) {
    const Eigen::Vector3d jump = motion.jumps.col(p);
    const auto response =
        closed ? respond_closed(law(p), point_motion(p, jump)) : this->response(p, jump);
    tangent.branches.push_back(response.branch);
    tangent.stiffness.push_back(response.tangent);
    tangent.traction.col(p) = response.traction - response.tangent * jump;
  }
  tangent.screw_stiffness.resize(screw_motions_.size());
  tangent.screw_force.resize(screw_motions_.size());
  for (std::size_t s = 0; s < screw_motions_.size(); ++s) {
    const double elongation = motion.screws(0, s);
    const auto response = screw_response(s, elongation);
    tangent.screw_stiffness[s] = response.stiffness;
    tangent.screw_force[s] = response.force - response.stiffness * elongation;
  }
  return tangent;
}

StiffnessAdditions JointSystem::additions(const JointTangent& tangent) const {
  StiffnessAdditions additions;
  blocks_.append(tangent.stiffness, additions.blocks);
  for (std::size_t s = 0; s < screw_motions_.size(); ++s) {
    additions.springs.push_back({screw_motions_[s][0], tangent.screw_stiffness[s]});
    for (int d : {1, 2})
      additions.springs.push_back({screw_motions_[s][d], joint_.screws[s].lateral_stiffness});
  }
  return additions;
}

void JointSystem::add_screw(std::size_t screw, int direction, double force,
                            Eigen::VectorXd& forces) const {
  for (const auto& [node, share] : screw_motions_[screw][direction])
    forces.segment<3>(3 * Eigen::Index{node}) += force * share;
}

Eigen::VectorXd JointSystem::forces_at_rest(const JointTangent& tangent) const {
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh_.unknowns());
  for (std::size_t p = 0; p < size(); ++p)
    add_traction(mesh_, points_[p], tangent.traction.col(p), forces);
  for (std::size_t s = 0; s < screw_motions_.size(); ++s)
    add_screw(s, 0, tangent.screw_force[s], forces);
  return forces;
}

Eigen::VectorXd JointSystem::forces(const JointMotion& motion) const {
  Eigen::VectorXd resisted = Eigen::VectorXd::Zero(mesh_.unknowns());
  for (std::size_t p = 0; p < size(); ++p)
    add_traction(mesh_, points_[p], response(p, motion.jumps.col(p)).traction, resisted);
  for (std::size_t s = 0; s < screw_motions_.size(); ++s) {
    add_screw(s, 0, screw_response(s, motion.screws(0, s)).force, resisted);
    for (const int across : {1, 2})
      add_screw(s, across, joint_.screws[s].lateral_stiffness * motion.screws(across, s), resisted);
  }
  return -resisted;
}

JointSystem::Departure JointSystem::departure(const JointTangent& tangent,
                                              const JointMotion& motion) const {
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh_.unknowns());
  Eigen::VectorXd difference = forces;
  for (std::size_t p = 0; p < size(); ++p) {
    const Eigen::Vector3d jump = motion.jumps.col(p);
    const Eigen::Vector3d traction = response(p, jump).traction;
    add_traction(mesh_, points_[p], traction, forces);
    add_traction(mesh_, points_[p],
                 traction - tangent.traction.col(p) - tangent.stiffness[p] * jump, difference);
  }
  for (std::size_t s = 0; s < screw_motions_.size(); ++s) {
    const double elongation = motion.screws(0, s);
    const double force = screw_response(s, elongation).force;
    add_screw(s, 0, force, forces);
    add_screw(s, 0, force - tangent.screw_force[s] - tangent.screw_stiffness[s] * elongation,
              difference);
  }
  return {difference.norm(), forces.norm()};
}

double JointSystem::work(const JointMotion& at, const JointMotion& step) const {
  double work = 0.0;
  for (std::size_t p = 0; p < size(); ++p)
    work += points_[p].area * response(p, at.jumps.col(p)).traction.dot(step.jumps.col(p));
  for (std::size_t s = 0; s < screw_motions_.size(); ++s) {
    work += screw_response(s, at.screws(0, s)).force * step.screws(0, s);
    work += joint_.screws[s].lateral_stiffness *
            at.screws.col(s).tail<2>().dot(step.screws.col(s).tail<2>());
  }
  return work;
}

}  // namespace crossgrain
