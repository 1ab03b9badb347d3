// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/joint_judgement.h"

#include <algorithm>

#include "cases/joint/flange_bow.h"
#include "cases/judgement/screw_facts.h"
#include "cases/judgement/seal_facts.h"

namespace crossgrain {
namespace {

class StateReader {
 public:
  StateReader(const CaseFile& case_file, const Loading& loading, const ElementarySolution& solution,
              const BodyMaterials& materials, const std::vector<Eigen::Vector3d>& print_directions,
              const TetrahedronMesh& mesh)
      : case_file_(case_file),
        joined_(*loading.joined),
        loading_(loading),
        solution_(solution),
        materials_(materials),
        print_directions_(print_directions),
        mesh_(mesh) {}

  JudgedJoint judge() const {
    std::vector<ScrewGroupFacts> groups;
    double kept = 1.0;
    for (std::size_t g = 0; g < joined_.screws.size(); ++g) {
      const std::size_t body = index(joined_.screws[g].hole.body);
      groups.push_back(screw_group_facts(case_file_.bolts[g], joined_.screws[g],
                                         joined_.joint.screws, materials_.service[body],
                                         print_directions_[body]));
      kept = std::min(kept, joined_.screws[g].kept);
    }
    std::vector<SealFacts> seals;
    for (std::size_t s = 0; s < case_file_.gaskets.size(); ++s) seals.push_back(seal(s));
    std::vector<JointStateFacts> states;
    for (std::size_t i = 0; i < joined_.states.size(); ++i) states.push_back(state(i, groups));
    return judge_joint(groups, seals, states, kept);
  }

 private:
  /// Pairs stand contacts first.
  std::size_t pair_of_gasket(std::size_t gasket) const {
    return case_file_.contacts.size() + gasket;
  }

  SealFacts seal(std::size_t gasket) const {
    const GasketSpec& spec = case_file_.gaskets[gasket];
    const JoinedFluid* kept_in = nullptr;
    for (const JoinedFluid& fluid : joined_.fluids)
      if (joined_.acting[fluid.acting].name == spec.pressure) kept_in = &fluid;
    double hole = 0.0;
    for (const BoltSpec& bolt : case_file_.bolts)
      if (const ScrewSize* size = find_screw_size(bolt.size))
        hole = std::max(hole, size->clearance_hole);
    SealFacts facts = seal_facts(spec, joined_.joint.pairs[pair_of_gasket(gasket)], kept_in,
                                 joined_.joint.screws, hole, mesh_);
    add_screws(spec, facts);
    return facts;
  }

  /// Those that press it. What of their length the gasket does not take is the flange under them.
  void add_screws(const GasketSpec& spec, SealFacts& facts) const {
    const auto group = std::ranges::find(joined_.screws, spec.bolts, &JoinedScrews::name);
    if (group == joined_.screws.end()) return;
    for (std::size_t s = group->first; s < group->first + group->count; ++s)
      facts.screws.push_back(joined_.joint.screws[s].head.centre);
    const BoltSpec& bolt = case_file_.bolts[group - joined_.screws.begin()];
    const double flange = group->clamped_length - spec.between->shape.thickness;
    const ScrewSize* size = find_screw_size(bolt.size);
    if (size != nullptr && flange > 0.0)
      facts.pitch_limit = usual_pitch_limit(size->diameter, flange, facts.constants.m);
  }

  JointStateFacts state(std::size_t i, const std::vector<ScrewGroupFacts>& groups) const {
    const JointStateSpec& spec = joined_.states[i];
    const JointSolution& solved = solution_.joint_states[i];
    const auto& change = loading_.loads[i].temperature_change;
    JointStateFacts facts;
    facts.situation = spec.situation;
    facts.level = spec.preload;
    facts.preload = preload_over_nominal(spec.preload);
    facts.temperature_K = case_file_.conditions.service.temperature_K;
    if (change.size() > 0) facts.temperature_K += change.mean();
    facts.fluid_pressure = 0.0;
    for (const JoinedFluid& fluid : joined_.fluids)
      facts.fluid_pressure =
          std::max(facts.fluid_pressure, spec.acting[fluid.acting] * fluid.pressure);
    facts.tightening = !spec.locked_in && !spec.after_loss;
    facts.after_losses = spec.after_loss;
    for (std::size_t g = 0; g < groups.size(); ++g)
      facts.screws.push_back(group_in_state(g, groups[g], solved));
    for (std::size_t s = 0; s < case_file_.gaskets.size(); ++s) {
      const std::size_t pair = pair_of_gasket(s);
      const InterfacePair& faces = joined_.joint.pairs[pair];
      facts.contact.push_back(mean_at_places(faces, solved.pairs[pair].pressure));
      facts.gap.push_back(mean_at_places(faces, solved.pairs[pair].gap));
    }
    return facts;
  }

  JointStateFacts::Group group_in_state(std::size_t g, const ScrewGroupFacts& facts,
                                        const JointSolution& solved) const {
    const JoinedScrews& group = joined_.screws[g];
    JointStateFacts::Group result;
    for (std::size_t s = group.first; s < group.first + group.count; ++s)
      result.forces.push_back(solved.screws[s].force);
    result.limits = seat_limits(case_file_.bolts[g], facts, group.hole.axis,
                                seat_on(group.head_body), seat_on(group.hole.body));
    return result;
  }

  SeatBody seat_on(BodyId body) const {
    return {materials_.service[index(body)], print_directions_[index(body)]};
  }

  /// By the first group; one torque is turned for all of them.
  double preload_over_nominal(PreloadLevel preload) const {
    if (joined_.screws.empty()) return 1.0;
    const PreloadRange& range = joined_.screws.front().preload;
    return preload_at(range, preload) / range.nominal;
  }

  const CaseFile& case_file_;
  const JoinedBodies& joined_;
  const Loading& loading_;
  const ElementarySolution& solution_;
  const BodyMaterials& materials_;
  const std::vector<Eigen::Vector3d>& print_directions_;
  const TetrahedronMesh& mesh_;
};

}  // namespace

JudgedJoint judge_states(const CaseFile& case_file, const Loading& loading,
                         const ElementarySolution& solution, const BodyMaterials& materials,
                         const std::vector<Eigen::Vector3d>& print_directions,
                         const TetrahedronMesh& mesh) {
  return StateReader(case_file, loading, solution, materials, print_directions, mesh).judge();
}

}  // namespace crossgrain
