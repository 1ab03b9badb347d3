// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/factor_fields.h"

#include <limits>

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

double factor_at(FailureMode mode, const Yardstick& yardstick, BodyId body,
                 const Vector6d& stress) {
  const auto& strength = yardstick.strength_of_body[index(body)];
  if (!stress.allFinite()) return not_a_number;
  return load_multiplier(mode, strength, Vector6d::Zero(), stress).value_or(no_limit);
}

}  // namespace

void fill_factor_fields(CaseFields& fields, const StressSites& sites, const Yardstick& yardstick,
                        const StressField& stress, int threads) {
  const auto count = stress.cols();
  fields.overall = Eigen::VectorXd::Constant(count, no_limit);
  fields.governing = Eigen::VectorXi::Constant(count, -1);
  for (const auto mode : modes_of(yardstick, true)) {
    std::vector<bool> applies;
    for (const auto& strength : yardstick.strength_of_body) {
      applies.push_back(judges(mode, strength, yardstick.criterion));
    }
    auto& factor = fields.factor[mode];
    factor = Eigen::VectorXd::Constant(count, no_limit);
    in_parallel(count, threads, [&](Eigen::Index begin, Eigen::Index end) {
      for (auto i = begin; i < end; ++i) {
        const BodyId body = sites.points[i].body;
        if (!applies[index(body)]) continue;
        factor[i] = factor_at(mode, yardstick, body, stress.col(i));
        if (mode == FailureMode::tsai_wu || factor[i] >= fields.overall[i] ||
            sites.group_of(i, mode) == SiteGroup::under_heads)
          continue;
        fields.overall[i] = factor[i];  // NaN arrives here too, and stays: NaN >= x is false
        fields.governing[i] = static_cast<int>(mode);
      }
    });
  }
  for (Eigen::Index i = 0; i < count; ++i) {
    if (!stress.col(i).allFinite()) fields.governing[i] = -1;
  }
}

}  // namespace crossgrain
