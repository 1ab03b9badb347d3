// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/verdict.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/mesh_error.h"
#include "cases/judgement/verdict_sentence.h"
#include "mesh/geometry/geometry_words.h"
#include "mesh/tetrahedra/mesh_checks.h"

namespace crossgrain {
namespace {

// Common practice, no source: a direct solve of a sound model is far below each.
constexpr double largest_force_error = 1e-6;
constexpr double largest_residual = 1e-8;
// A thin part moves far under little force, and round-off of its stiffness, times that way, leaves
// more force than this; then the error in energy decides: a hundredth of a hundredth of what the
// mesh leaves.
constexpr double largest_energy_error = 1e-6;
constexpr double largest_volume_error = 0.01;

void distrust_if_above(std::vector<std::string>& reasons, double value, double largest,
                       const std::string& what) {
  if (value <= largest) return;  // NaN goes on
  reasons.push_back(what + " is " + three_digits(value) + ", more than " + three_digits(largest));
}

std::vector<std::string> reasons_to_distrust(const RunResult& result) {
  std::vector<std::string> reasons;
  for (const auto& load_case : result.cases) {
    for (const auto& reason : load_case.distrust) {
      reasons.push_back("load case " + title_of(load_case) + ": " + reason);
    }
  }
  if (least_case(result) < 0) reasons.push_back("no load case was judged");
  const auto& balance = result.balance;
  distrust_if_above(reasons, balance.force_error, largest_force_error,
                    "the force that the supports do not answer, as a fraction of the load,");
  distrust_if_above(reasons, balance.moment_error, largest_force_error,
                    "the moment that the supports do not answer, as a fraction of the load's,");
  if (!(balance.energy_error && *balance.energy_error <= largest_energy_error))
    distrust_if_above(reasons, balance.residual, largest_residual,
                      "the relative residual of the solve");
  distrust_if_above(reasons, balance.volume_error, largest_volume_error,
                    "the mesh's volume error against the CAD body, as a fraction,");
  for (const BodyBalance& body : balance.bodies) {
    distrust_if_above(reasons, body.volume_error(), largest_volume_error,
                      "the error of body '" + body.name + "' in the mesh by volume (" +
                          words(body.volume_mm3) + " mm^3 for " + words(body.cad_volume_mm3) +
                          " in CAD), as a fraction,");
    distrust_if_above(reasons, body.mass_error(), largest_volume_error,
                      "the error of body '" + body.name + "' in the mesh by mass (" +
                          words(body.mass_g) + " g for " + words(body.cad_mass_g) +
                          " by CAD and card), as a fraction,");
  }
  if (result.mesh_error &&
      !(std::isfinite(result.mesh_error->factor) && std::isfinite(result.mesh_error->energy)))
    reasons.push_back("the estimate of the mesh's error is not a number");
  if (!(result.mesh_report.min_scaled_jacobian > 0.0))
    reasons.push_back("an element of the mesh is turned inside out: its Jacobian is " +
                      three_digits(result.mesh_report.min_scaled_jacobian) +
                      " of a regular element's");
  else if (result.mesh_report.min_scaled_jacobian < least_trusted_jacobian)
    reasons.push_back("an element of the mesh at " + words(result.mesh_report.flattest_at) +
                      " mm is too flat for its stress to be trusted: its Jacobian is " +
                      three_digits(result.mesh_report.min_scaled_jacobian) +
                      " of a regular element's, less than " + three_digits(least_trusted_jacobian) +
                      "; set another [mesh] size");
  if (result.mesh_report.layers_min < 1)
    reasons.push_back("the thinnest walls hold no whole layer of elements");
  return reasons;
}

bool is_nearer_zero(const std::optional<double>& a, const std::optional<double>& b) {
  return a && (!b || std::abs(*a) < std::abs(*b));
}

void find_allowable_pressure(RunResult& result) {
  for (const auto& load_case : result.cases) {
    if (load_case.kind == CaseKind::proof || !load_case.scaling_loads.applies) continue;
    if (is_nearer_zero(load_case.allowable_pressure_MPa, result.allowable_pressure_MPa)) {
      result.allowable_pressure_MPa = load_case.allowable_pressure_MPa;
      result.allowable_limited_by =
          load_case.allowable_limited_by + ", load case " + title_of(load_case);
    }
    if (is_nearer_zero(load_case.allowable_pressure_low_MPa, result.allowable_pressure_low_MPa)) {
      result.allowable_pressure_low_MPa = load_case.allowable_pressure_low_MPa;
    }
    if (is_nearer_zero(load_case.allowable_pressure_high_MPa, result.allowable_pressure_high_MPa)) {
      result.allowable_pressure_high_MPa = load_case.allowable_pressure_high_MPa;
    }
  }
  if (!result.buckling.checked || !result.buckling.factor || !result.working_pressure_MPa) return;
  const double buckling =
      *result.buckling.factor / result.targets.safety_factor * *result.working_pressure_MPa;
  for (auto* allowable : {&result.allowable_pressure_MPa, &result.allowable_pressure_low_MPa,
                          &result.allowable_pressure_high_MPa}) {
    if (!is_nearer_zero(buckling, *allowable)) continue;
    *allowable = buckling;
    if (allowable == &result.allowable_pressure_MPa) result.allowable_limited_by = "buckling";
  }
}

/// A proof test at `multiple` of the planned pressure, from the proof case that allows least.
void find_proof_pressure(RunResult& result) {
  const CaseResult* worst = nullptr;
  double planned = 0.0;
  for (const auto& load_case : result.cases) {
    if (load_case.kind != CaseKind::proof || !load_case.leading_value_MPa) continue;
    planned = *load_case.leading_value_MPa;
    if (!worst || is_nearer_zero(load_case.allowable_pressure_MPa, worst->allowable_pressure_MPa)) {
      worst = &load_case;
    }
  }
  if (!worst) return;
  result.proof_breaks_limit = is_nearer_zero(worst->allowable_pressure_MPa, planned);
  result.proof_pressure_MPa = result.proof_breaks_limit ? *worst->allowable_pressure_MPa : planned;
  if (result.proof_breaks_limit) {
    result.proof_statement = "The proof test asked for would itself break a limit (" +
                             worst->allowable_limited_by + "): the short-term strengths allow " +
                             three_digits(*worst->allowable_pressure_MPa / planned) +
                             " of its pressure.";
    return;
  }
  const auto minutes = three_digits(result.targets.proof_duration_s / 60.0);
  result.proof_statement = "Prove with water, all air bled, " + minutes +
                           " min at 23 degC, watched from behind a barrier.";
  if (is_nearer_zero(worst->allowable_pressure_low_MPa, planned)) {
    result.proof_statement += " With the low ends of the constants that could break a limit (" +
                              worst->allowable_limited_by + ").";
  }
}

/// An end of a factor's range, moved by what the mesh may be off by.
std::optional<double> with_mesh_error(const RunResult& result, const FactorRange& factor,
                                      std::optional<double> end, double sign) {
  if (!end || !result.mesh_error || !factor.value) return end;
  return *end * std::max(0.0, 1.0 + sign * result.mesh_error->factor / *factor.value);
}

/// "insert pulled out of 'lid screws', and 2 more"; empty if all of the joint holds.
std::string joint_failures(const RunResult& result) {
  if (!result.joint) return "";
  std::string first;
  int more = -1;
  for (const JointLine& line : result.joint->lines) {
    if (line.holds()) continue;
    if (++more == 0) first = std::string(words(line.mode)) + " of '" + line.owner + "'";
  }
  return more > 0 ? first + ", and " + std::to_string(more) + " more" : first;
}

struct DoubtfulMode {
  std::string load_case;
  ModeResult mode;
};

/// The first mode of a service case, other than the governing one, that meets the target only
/// without its mesh error.
std::optional<DoubtfulMode> doubtful_mode(const RunResult& result) {
  const double target = result.targets.safety_factor;
  for (const CaseResult& judged : result.cases) {
    if (judged.kind == CaseKind::proof) continue;
    for (const Judgement* judgement : {&judged.all_loads, &judged.scaling_loads}) {
      if (!judgement->applies) continue;
      for (const ModeResult& mode : judgement->modes) {
        if (mode.mode == FailureMode::tsai_wu || !mode.factor.value || !mode.mesh_error) continue;
        if (result.governing && mode.mode == result.governing->mode &&
            mode.position == result.governing->position)
          continue;
        const double low = mode.factor.low.value_or(*mode.factor.value);
        if (low >= target && low * (1.0 - *mode.mesh_error / *mode.factor.value) < target)
          return DoubtfulMode{title_of(judged), mode};
      }
    }
  }
  return std::nullopt;
}

/// What keeps a run that meets its target from a plain pass.
std::vector<std::string> reasons_against_a_plain_pass(const RunResult& result) {
  std::vector<std::string> reasons;
  if (result.buckling.applies && !result.buckling.checked) {
    reasons.push_back("buckling under external pressure was not checked");
  }
  if (result.buckling.checked && is_less(result.buckling.factor, result.targets.safety_factor)) {
    reasons.push_back("the factor against buckling is " + three_digits(*result.buckling.factor) +
                      ", below the target");
  }
  const auto factor = worse_of(result.factor, result.pressure_factor);
  const double target = result.targets.safety_factor;
  if (!is_less(factor.low, target) &&
      is_less(with_mesh_error(result, factor, factor.low, -1.0), target)) {
    reasons.push_back("the mesh may be off by " + three_digits(result.mesh_error->factor) +
                      " of the factor");
  }
  if (const auto doubt = doubtful_mode(result)) {
    reasons.push_back("the mesh may be off by " + three_digits(*doubt->mode.mesh_error) +
                      " of another factor (" + std::string(words_for(doubt->mode.mode)) +
                      ", load case " + doubt->load_case + ", " +
                      three_digits(*doubt->mode.factor.value) + ")");
  }
  if (result.hidden_zone) {
    reasons.push_back("beside a support at " + words(result.hidden_zone->at_support.position) +
                      " mm the mesh is too coarse to see what a bead feels");
  }
  if (const std::string failures = joint_failures(result); !failures.empty()) {
    reasons.push_back("the joint does not hold (" + failures + ")");
  }
  if (result.proof_breaks_limit) {
    reasons.push_back("the proof test would itself break a limit");
  }
  return reasons;
}

Verdict verdict_of(const RunResult& result, bool plain_pass_possible) {
  if (!result.distrust.empty()) return Verdict::not_trusted;
  const double target = result.targets.safety_factor;
  const auto factor = worse_of(result.factor, result.pressure_factor);
  // What the mesh may be off by widens what the constants leave open.
  if (is_less(with_mesh_error(result, factor, factor.high, 1.0), target)) return Verdict::fail;
  const bool buckles = result.buckling.checked && is_less(result.buckling.factor, target);
  if (buckles || (result.joint && result.joint->fails())) return Verdict::fail;
  if (is_less(with_mesh_error(result, factor, factor.low, -1.0), target)) return Verdict::marginal;
  return plain_pass_possible ? Verdict::pass : Verdict::marginal;
}

}  // namespace

void find_worst(RunResult& result) {
  result.factor = result.pressure_factor = {};
  result.displacement_max_mm = result.strain_energy_mJ = 0.0;
  for (const auto& load_case : result.cases) {
    if (load_case.kind == CaseKind::proof) continue;
    result.factor = worse_of(result.factor, load_case.all_loads.factor);
    result.displacement_max_mm =
        std::max(result.displacement_max_mm, load_case.displacement_max_mm);
    result.strain_energy_mJ = std::max(result.strain_energy_mJ, load_case.strain_energy_mJ);
    if (!load_case.scaling_loads.applies) continue;
    result.pressure_factor = worse_of(result.pressure_factor, load_case.scaling_loads.factor);
  }
  const int index = least_case(result);
  if (index < 0) return;
  const auto& worst = result.cases[index];
  result.governing_case = title_of(worst);
  const bool by_pressure = worst.scaling_loads.applies &&
                           is_less(worst.scaling_loads.factor.value, worst.all_loads.factor.value);
  // Where the model ends before any mode is reached, the weakest place is still worth showing.
  result.governing = by_pressure && worst.scaling_loads.governing ? worst.scaling_loads.governing
                                                                  : worst.all_loads.governing;
}

void conclude(RunResult& result, int layers_asked) {
  find_worst(result);
  find_allowable_pressure(result);
  find_proof_pressure(result);
  auto reasons = reasons_to_distrust(result);
  result.distrust.insert(result.distrust.end(), reasons.begin(), reasons.end());
  if (result.mesh_report.layers_min < layers_asked) {
    result.warnings.push_back("the thinnest walls hold " +
                              std::to_string(result.mesh_report.layers_min) +
                              " layers of elements, " + std::to_string(layers_asked) +
                              " were asked for: bending of those walls is less certain");
  }
  if (result.mesh_error && result.governing && result.governing->factor.value &&
      result.mesh_error->factor > coarse_mesh * *result.governing->factor.value)
    result.warnings.push_back("the mesh is too coarse for this part: the factor of " +
                              three_digits(*result.governing->factor.value) + " may be off by " +
                              three_digits(result.mesh_error->factor) +
                              "; have it refined with [mesh] error = \"10 %\"");
  for (const CaseResult& load_case : result.cases) {
    if (!load_case.followed || load_case.followed->unsettled.empty()) continue;
    result.warnings.push_back(
        "load case " + title_of(load_case) +
        ": the joint could not be followed to the factor on pressure alone (" +
        load_case.followed->unsettled +
        "); it is a straight line's from the state under the loads as they "
        "are");
  }
  if (const auto& zone = result.hidden_zone)
    result.warnings.push_back(
        "beside a support at " + words(zone->at_support.position) + " mm elements are " +
        three_digits(zone->mean_edge_mm) + " mm long: a bead of " +
        three_digits(zone->bead_width_mm) +
        " mm away stress counts again, and the mesh has no point there; at the support itself the "
        "factor is " +
        three_digits(*zone->at_support.factor.value) + ". Leave [mesh] refine_worst_place on");
  const auto against = reasons_against_a_plain_pass(result);
  result.verdict = verdict_of(result, against.empty());
  result.verdict_sentence = sentence_for(result);
  const std::string besides = result.verdict == Verdict::fail ? " Besides, " : " No plain pass: ";
  for (const auto& reason : against) result.verdict_sentence += besides + reason + ".";
  if (result.verdict == Verdict::not_trusted) {
    result.verdict_sentence = "Not to be relied on: " + result.distrust.front() +
                              ". Taken at face value: " + result.verdict_sentence;
  }
}

std::string words_for(const FactorRange& factor) {
  if (!factor.value) return "without a limit that was found";
  std::string text = three_digits(*factor.value);
  const bool ranged = factor.low != factor.value || factor.high != factor.value;
  if (!ranged) return text;
  return text + " (" + (factor.low ? three_digits(*factor.low) : "?") + " to " +
         (factor.high ? three_digits(*factor.high) : "no limit") + ")";
}

}  // namespace crossgrain
