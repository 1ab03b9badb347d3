// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "cases/loads/load_cases.h"

namespace crossgrain {

/// A load case before its variants: what acts, and which of it is held though it scales in service.
struct CasePlan {
  std::string name;
  CaseKind kind;
  StrengthBasis strengths = StrengthBasis::service;
  std::map<std::string, double> factors;  ///< multiples of the loads by their names
  std::vector<std::string> held_here;

  double factor(const std::string& load) const;
  bool scales(const ElementaryLoad& load) const;  ///< in this case
};

/// Assembly (held loads alone), working (if anything scales), the user's, proof (if there is a
/// pressure): every scaling pressure raised by the proof factor, other scaling loads held, no
/// change of temperature.
/// @param loading  whose loads, leading pressure and working pressure are set.
std::vector<CasePlan> case_plans(const CaseFile& case_file, const Loading& loading);

/// Name the pressure that an allowable one speaks of, where it acts in this case.
void lead_by_pressure(LoadCase& built, const CasePlan& plan, const Loading& loading);

}  // namespace crossgrain
