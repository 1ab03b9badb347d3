// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/case_plans.h"

#include <algorithm>

#include "cases/loads/vacuum.h"

namespace crossgrain {
namespace {

CasePlan working_plan(const CaseFile& case_file, const Loading& loading) {
  CasePlan plan{"working", CaseKind::working, StrengthBasis::service, {}, {}};
  for (const auto& load : loading.loads) plan.factors[load.name] = 1.0;
  for (const auto& bolt : case_file.bolts) plan.factors[bolt.name] = 1.0;
  return plan;
}

CasePlan assembly_plan(const CaseFile& case_file, const Loading& loading) {
  CasePlan plan = working_plan(case_file, loading);
  plan.name = case_file.bolts.empty() ? "held loads alone" : "assembly";
  plan.kind = CaseKind::assembly;
  for (const auto& load : loading.loads) {
    if (load.scales) plan.factors[load.name] = 0.0;
  }
  return plan;
}

CasePlan proof_plan(const CaseFile& case_file, const Loading& loading) {
  CasePlan plan = working_plan(case_file, loading);
  plan.name = "proof";
  plan.kind = CaseKind::proof;
  plan.strengths = StrengthBasis::proof;
  const double multiple =
      std::min(case_file.targets.proof_factor, largest_multiple(loading.working_pressure_MPa));
  for (const auto& pressure : case_file.pressures) {
    if (pressure.scales) plan.factors[pressure.name] = multiple;
  }
  for (const auto& force : case_file.forces) plan.held_here.push_back(force.name);
  for (const auto& acceleration : case_file.accelerations) {
    plan.held_here.push_back(acceleration.name);
  }
  for (const auto& change : case_file.temperatures) plan.factors[change.name] = 0.0;
  return plan;
}

}  // namespace

double CasePlan::factor(const std::string& load) const {
  const auto found = factors.find(load);
  return found == factors.end() ? 0.0 : found->second;
}

bool CasePlan::scales(const ElementaryLoad& load) const {
  return load.scales && std::ranges::find(held_here, load.name) == held_here.end();
}

std::vector<CasePlan> case_plans(const CaseFile& case_file, const Loading& loading) {
  std::vector<CasePlan> plans{assembly_plan(case_file, loading)};
  if (std::ranges::any_of(loading.loads, &ElementaryLoad::scales)) {
    plans.push_back(working_plan(case_file, loading));
  }
  for (const auto& spec : case_file.load_cases) {
    plans.push_back({spec.name, CaseKind::user, StrengthBasis::service, spec.factors, {}});
  }
  if (loading.leading_pressure) plans.push_back(proof_plan(case_file, loading));
  return plans;
}

void lead_by_pressure(LoadCase& built, const CasePlan& plan, const Loading& loading) {
  if (!loading.leading_pressure) return;
  const double multiple = plan.factor(*loading.leading_pressure);
  if (multiple == 0.0) return;
  built.leading_pressure = loading.leading_pressure;
  built.leading_value_MPa = multiple * loading.working_pressure_MPa;
}

}  // namespace crossgrain
