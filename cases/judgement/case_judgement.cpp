// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/case_judgement.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/judgement/allowable_pressure.h"
#include "cases/judgement/factor_fields.h"
#include "cases/judgement/factor_range.h"
#include "cases/loads/vacuum.h"

namespace crossgrain {
namespace {

/// The model ends at `largest_lambda`: no factor beyond it is known.
void cap(Judgement& judgement, const LoadCase& load_case) {
  if (!load_case.largest_lambda) return;
  const FactorRange end = only(load_case.largest_lambda);
  if (is_less(end.value, judgement.factor.value)) {
    judgement.limited_by = load_case.largest_lambda_reason;
    judgement.governing.reset();
  }
  judgement.factor = worse_of(judgement.factor, end);
}

void set_allowable_pressure(CaseResult& result, const LoadCase& load_case,
                            AllowableMultiple multiple) {
  const double most = largest_multiple(load_case.leading_value_MPa);
  if (most < multiple.value.value_or(std::numeric_limits<double>::infinity())) {
    multiple = {most, "nothing: even a perfect vacuum holds"};
  }
  result.allowable_limited_by = multiple.limited_by;
  if (!multiple.value) return;
  result.allowable_pressure_MPa = *multiple.value * load_case.leading_value_MPa;
  result.allowable_pressure_low_MPa = result.allowable_pressure_MPa;
  result.allowable_pressure_high_MPa = result.allowable_pressure_MPa;
}

// A vacuum is a negative pressure: the less daring one is nearer to zero.
std::optional<double> nearer_to_zero(const std::optional<double>& a,
                                     const std::optional<double>& b) {
  return a && (!b || std::abs(*a) < std::abs(*b)) ? a : b;
}
std::optional<double> farther_from_zero(const std::optional<double>& a,
                                        const std::optional<double>& b) {
  return nearer_to_zero(a, b) == a ? b : a;
}

void widen_modes(std::vector<ModeResult>& modes, const std::vector<ModeResult>& others) {
  for (auto& mode : modes) {
    const auto other = std::ranges::find(others, mode.mode, &ModeResult::mode);
    if (other != others.end()) widen_range(mode.factor, other->factor);
  }
}

void widen_judgement(Judgement& judgement, const Judgement& other) {
  if (!judgement.applies) return;
  widen_range(judgement.factor, other.factor);
  widen_modes(judgement.modes, other.modes);
  widen_modes(judgement.near_artificial, other.near_artificial);
  widen_modes(judgement.under_heads, other.under_heads);
  if (!judgement.governing) return;
  const auto mode =
      std::ranges::find(judgement.modes, judgement.governing->mode, &ModeResult::mode);
  judgement.governing->factor = mode->factor;
}

std::vector<std::string> reasons_to_distrust(const StressSites& sites, const CombinedCase& combined,
                                             const StressField& total, const Judgement& all_loads) {
  auto reasons = check_finite(sites, total);
  if (!combined.displacement.allFinite()) {
    reasons.push_back("the displacement is not a number everywhere");
  }
  if (all_loads.modes.empty()) {
    reasons.push_back(
        "no point is left to judge: all lie within a bead width of a support or a point-like load");
  }
  return reasons;
}

double largest_displacement(const Eigen::VectorXd& displacement) {
  return std::sqrt(
      Eigen::Map<const Eigen::Matrix3Xd>(displacement.data(), 3, displacement.size() / 3)
          .colwise()
          .squaredNorm()
          .maxCoeff());
}

}  // namespace

Judgement judge_scaling(const LoadCase& load_case, const StressSites& sites,
                        const Yardstick& yardstick, const StressField& held,
                        const StressField& scaling, int threads) {
  Judgement judgement;
  judgement.applies = scaling.cols() > 0;
  if (!judgement.applies) return judgement;
  judgement = judge(sites, yardstick, held, scaling, threads);
  cap(judgement, load_case);
  return judgement;
}

CaseResult judge_case(const LoadCase& load_case, const CombinedCase& combined,
                      const StressSites& sites, const MaterialField& field,
                      const Yardstick& yardstick, const JudgeOptions& options) {
  CaseResult result;
  result.name = load_case.name;
  result.kind = load_case.kind;
  result.bound = load_case.bound;
  if (load_case.leading_pressure) result.leading_value_MPa = load_case.leading_value_MPa;
  result.displacement_max_mm = largest_displacement(combined.displacement);
  const auto held = in_material_axes(combined.held, sites.points, field, options.threads);
  const auto scaling = in_material_axes(combined.scaling, sites.points, field, options.threads);
  const StressField total = held + scaling;
  result.all_loads = judge(sites, yardstick, StressField(6, 0), total, options.threads);
  result.scaling_loads =
      judge_scaling(load_case, sites, yardstick, combined.anything_held ? held : StressField(6, 0),
                    combined.anything_scales ? scaling : StressField(6, 0), options.threads);
  if (load_case.leading_pressure && result.scaling_loads.applies) {
    set_allowable_pressure(
        result, load_case,
        allowable_multiple(sites, yardstick, combined.anything_held ? held : StressField(6, 0),
                           scaling, result.scaling_loads, options.target, options.threads));
  }
  result.distrust = reasons_to_distrust(sites, combined, total, result.all_loads);
  if (options.keep_fields) {
    result.fields.displacement = combined.displacement;
    result.fields.stress = combined.held + combined.scaling;
    fill_factor_fields(result.fields, sites, yardstick, total, options.threads);
  }
  return result;
}

void widen_range(CaseResult& result, const CaseResult& other) {
  widen_judgement(result.all_loads, other.all_loads);
  widen_judgement(result.scaling_loads, other.scaling_loads);
  result.allowable_pressure_low_MPa =
      nearer_to_zero(result.allowable_pressure_low_MPa, other.allowable_pressure_low_MPa);
  result.allowable_pressure_high_MPa =
      farther_from_zero(result.allowable_pressure_high_MPa, other.allowable_pressure_high_MPa);
  for (const auto& reason : other.distrust) {
    if (std::ranges::find(result.distrust, reason) == result.distrust.end()) {
      result.distrust.push_back(reason);
    }
  }
}

}  // namespace crossgrain
