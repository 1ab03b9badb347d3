// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/judgement.h"

#include <sstream>
#include <stdexcept>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/least_multiplier.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

ModeResult mode_result(const LeastMultiplier& least, const StressSites& sites,
                       const StressField& held, const StressField& scaling) {
  ModeResult result;
  result.mode = least.mode;
  result.factor = only(least.value);
  result.position = sites.positions.col(least.site);
  const auto body = index(sites.points[least.site].body);
  result.body = body < sites.body_names.size() ? sites.body_names[body] : "";
  result.face = sites.face[least.site];
  result.stress = scaling.col(least.site);
  if (held.cols() > 0) result.stress += held.col(least.site);
  return result;
}

}  // namespace

StressField in_material_axes(const StressField& stress, const std::vector<StressPoint>& points,
                             const MaterialField& field, int threads) {
  if (stress.cols() != std::ssize(points))
    throw std::logic_error("a stress field has " + std::to_string(stress.cols()) + " columns for " +
                           std::to_string(points.size()) + " points");
  std::vector<Matrix6d> to_material;  // one rotation per frame, not per point
  for (const auto& frame : field.frames) {
    to_material.push_back(stress_rotation(frame.transpose()));
  }
  StressField turned(6, stress.cols());
  in_parallel(stress.cols(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      turned.col(i) = to_material[field.frame_of_point(points[i].tetrahedron, 0)] * stress.col(i);
    }
  });
  return turned;
}

Judgement judge(const StressSites& sites, const Yardstick& yardstick, const StressField& held,
                const StressField& scaling, int threads) {
  Judgement judgement;
  for (const auto& least :
       least_multipliers(sites, SiteGroup::judged, yardstick, held, scaling, true, threads)) {
    judgement.modes.push_back(mode_result(least, sites, held, scaling));
    const auto& mode = judgement.modes.back();
    if (mode.mode == FailureMode::tsai_wu) continue;  // a second opinion never governs
    if (!judgement.governing || is_less(mode.factor.value, judgement.factor.value)) {
      judgement.governing = mode;
      judgement.factor = mode.factor;
    }
  }
  const auto apart = [&](SiteGroup group) {
    std::vector<ModeResult> modes;
    for (const auto& least :
         least_multipliers(sites, group, yardstick, held, scaling, false, threads))
      modes.push_back(mode_result(least, sites, held, scaling));
    return modes;
  };
  judgement.near_artificial = apart(SiteGroup::near_artificial);
  judgement.under_heads = apart(SiteGroup::under_heads);
  return judgement;
}

std::vector<std::string> check_finite(const StressSites& sites, const StressField& stress) {
  Eigen::Index bad = 0;
  Eigen::Index first = -1;
  for (Eigen::Index i = 0; i < stress.cols(); ++i) {
    if (stress.col(i).allFinite()) continue;
    if (bad++ == 0) first = i;
  }
  if (bad == 0) return {};
  std::ostringstream reason;
  reason << "the stress is not a number at " << bad << " of " << stress.cols()
         << " points, the first at (" << sites.positions(0, first) << ", "
         << sites.positions(1, first) << ", " << sites.positions(2, first) << ") mm";
  return {reason.str()};
}

}  // namespace crossgrain
