// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

Json comparisons_json(const std::vector<HandComparison>& comparisons) {
  Json out = Json::array();
  for (const HandComparison& c : comparisons) {
    Json inputs = Json::array();
    for (const HandInput& input : c.inputs)
      inputs.push_back({{"symbol", input.symbol}, {"value", input.value}, {"unit", input.unit}});
    Json beside = Json::array();
    for (const HandBeside& other : c.beside)
      beside.push_back(
          {{"words", other.words}, {"formula", other.formula}, {"value_MPa", other.value_MPa}});
    Json faces = Json::array();
    for (const FaceId face : c.faces) faces.push_back(number(face));
    out.push_back({{"shape", c.shape},
                   {"faces", faces},
                   {"formula", c.formula},
                   {"inputs", inputs},
                   {"hand_MPa", c.hand_MPa},
                   {"beside", beside},
                   {"from_mm", json_vector(c.from)},
                   {"to_mm", json_vector(c.to)},
                   {"membrane_MPa", c.membrane_MPa},
                   {"membrane_and_bending_MPa", c.surface_MPa},
                   {"differs", c.differs},
                   {"reason", c.reason}});
  }
  return out;
}

Json screw_forces_json(const std::vector<HandScrewForce>& forces) {
  Json out = Json::array();
  for (const HandScrewForce& f : forces) {
    out.push_back({{"screws", f.screws},
                   {"count", f.count},
                   {"pressure_MPa", f.pressure_MPa},
                   {"seal_diameter_mm", f.seal_diameter_mm},
                   {"screw_circle_mm", f.circle_mm},
                   {"pitch_mm", f.pitch_mm},
                   {"hand_N", f.hand_N},
                   {"hand_N_per_mm", f.hand_N_per_mm},
                   {"joint_N", f.joint_N},
                   {"joint_solved", f.solved},
                   {"preload_N", f.preload_N},
                   {"hand_opening_MPa", f.hand_opening_MPa},
                   {"joint_opening_MPa", f.joint_opening_MPa},
                   {"differs", f.differs}});
  }
  return out;
}

}  // namespace

Json hand_calculation_json(const RunResult& result) {
  if (!result.hand_calculation) return nullptr;
  const HandCalculationResult& hand = *result.hand_calculation;
  Json chain = Json::array();
  for (const ChainStep& step : hand.chain) {
    chain.push_back({{"from", step.from}, {"to", step.to}, {"ratio", step.ratio}});
  }
  return {{"shape", hand.shape},
          {"formula", hand.formula},
          {"stress_MPa", hand.stress_MPa},
          {"safety_factor", hand.safety_factor},
          {"strength", hand.strength},
          {"isotropic_with_build_strength", json_range(hand.isotropic_with_Z)},
          {"chain", chain},
          {"sentence", hand.sentence},
          {"comparisons", comparisons_json(hand.comparisons)},
          {"screw_forces", screw_forces_json(hand.screw_forces)}};
}

}  // namespace crossgrain
