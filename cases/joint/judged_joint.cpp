// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/judged_joint.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>

#include "cases/joint/bow_lines.h"
#include "cases/joint/screw_lines.h"
#include "cases/joint/seal_lines.h"

namespace crossgrain {
namespace {

void append(std::vector<JointLine>& to, std::vector<JointLine> lines) {
  std::move(lines.begin(), lines.end(), std::back_inserter(to));
}

/// NaN is worse than anything.
bool worse(const JointLine& a, const JointLine& b) {
  if (std::isnan(a.use()) != std::isnan(b.use())) return std::isnan(a.use());
  return a.use() > b.use();
}

/// Keep the worst of every mode and owner.
void keep_worst(std::vector<JointLine>& lines) {
  std::stable_sort(lines.begin(), lines.end(), worse);
  std::vector<JointLine> kept;
  for (JointLine& line : lines) {
    const bool known = std::any_of(kept.begin(), kept.end(), [&](const JointLine& other) {
      return other.mode == line.mode && other.owner == line.owner;
    });
    if (!known) kept.push_back(std::move(line));
  }
  lines = std::move(kept);
}

/// Add a state's line to the response of its situation.
void add_response(std::vector<PreloadResponse>& responses, const JointLine& line,
                  const JointStateFacts& state) {
  const auto same = [&](const PreloadResponse& response) {
    return response.mode == line.mode && response.owner == line.owner &&
           response.situation == state.situation;
  };
  auto it = std::find_if(responses.begin(), responses.end(), same);
  if (it == responses.end()) {
    responses.push_back({line.mode,
                         line.owner,
                         state.situation,
                         state.temperature_K,
                         state.after_losses,
                         {},
                         line.limit.value});
    it = std::prev(responses.end());
    if (state.tightening) it->points.push_back({0.0, 0.0});
  }
  if (!(it->limit == line.limit.value)) {
    throw std::invalid_argument(std::string(words(line.mode)) + " of '" + line.owner +
                                "' has another limit at another preload of '" + state.situation +
                                "'; states of one situation differ in preload only");
  }
  const auto place = std::find_if(it->points.begin(), it->points.end(), [&](const auto& point) {
    return point.preload >= state.preload;
  });
  // Levels without scatter coincide: the same state, solved once or thrice.
  if (place != it->points.end() && place->preload == state.preload) return;
  it->points.insert(place, {state.preload, line.value});
}

std::vector<JointLine> lines_of(const JointStateFacts& state,
                                const std::vector<ScrewGroupFacts>& groups,
                                const std::vector<SealFacts>& seals) {
  if (state.screws.size() != groups.size() || state.contact.size() != seals.size()) {
    throw std::invalid_argument("state '" + state.situation +
                                "' does not know every group of screws and every seal");
  }
  std::vector<JointLine> lines;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    append(lines, screw_lines(groups[i], state.screws[i], state));
  }
  for (std::size_t i = 0; i < seals.size(); ++i) {
    append(lines, seal_lines(seals[i], state.contact[i], state));
  }
  return lines;
}

/// The widest of all groups.
PreloadScatter widest_scatter(const std::vector<ScrewGroupFacts>& groups) {
  PreloadScatter scatter{1.0, 1.0};
  for (const auto& group : groups) {
    scatter.least = std::min(scatter.least, group.preload.least / group.preload.nominal);
    scatter.greatest = std::max(scatter.greatest, group.preload.greatest / group.preload.nominal);
  }
  return scatter;
}

OpenerFacts opener_facts(const std::vector<ScrewGroupFacts>& groups,
                         const std::vector<JointLine>& lines, double kept_after_losses) {
  OpenerFacts facts{0, std::nullopt, kept_after_losses};
  for (const auto& group : groups) facts.screws += group.count;
  for (const auto& line : lines) {
    if (line.mode == JointMode::flange_bow)
      facts.bow = std::max(facts.bow.value_or(0.0), line.value);
  }
  return facts;
}

}  // namespace

JointLimit pull_out_limit(const HoldingForce& force) {
  const bool estimated = force.standing == LimitStanding::estimated;
  return {estimated ? force.low : force.value, force.standing,
          estimated ? "low end of an estimate: " + force.rule : force.rule};
}

bool JudgedJoint::holds() const {
  return std::all_of(lines.begin(), lines.end(), [](const auto& line) { return line.holds(); });
}

bool JudgedJoint::fails() const {
  return std::any_of(lines.begin(), lines.end(), [](const auto& line) {
    return !line.holds() && (is_firm(line.limit.standing) || std::isnan(line.use()));
  });
}

JudgedJoint judge_joint(const std::vector<ScrewGroupFacts>& groups,
                        const std::vector<SealFacts>& seals,
                        const std::vector<JointStateFacts>& states, double kept_after_losses) {
  JudgedJoint judged;
  for (const JointStateFacts& state : states) {
    std::vector<JointLine> lines = lines_of(state, groups, seals);
    for (const JointLine& line : lines) add_response(judged.responses, line, state);
    append(judged.lines, std::move(lines));
  }
  for (const auto& group : groups) {
    judged.groups.push_back({group.name, group.count, group.preload, group.torque});
    append(judged.lines, screw_lines(group));
  }
  judged.history = joint_history(groups, seals, states);
  for (std::size_t i = 0; i < states.size(); ++i) {
    // How even a flange is does not hang on the preload: no torque would mend it.
    for (std::size_t s = 0; s < seals.size(); ++s)
      append(judged.lines, bow_lines(seals[s], judged.history.states[i].spans[s], states[i]));
  }
  keep_worst(judged.lines);
  std::erase_if(judged.responses, [](const auto& response) { return response.points.size() < 2; });
  if (judged.responses.empty()) return judged;
  const PreloadScatter scatter = widest_scatter(groups);
  judged.window = torque_window(judged.responses, scatter);
  judged.by_temperature = windows_by_temperature(judged.responses, scatter);
  judged.openers = advise_openers(judged.responses, scatter,
                                  opener_facts(groups, judged.lines, kept_after_losses));
  return judged;
}

}  // namespace crossgrain
