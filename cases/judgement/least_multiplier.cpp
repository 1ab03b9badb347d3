// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/least_multiplier.h"

#include <limits>
#include <mutex>

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

/// The least found so far in one part of the sites.
struct Candidate {
  double multiplier = no_limit;
  Eigen::Index site = -1;
};

bool before(const Candidate& a, const Candidate& b) {
  if (a.multiplier != b.multiplier) return a.multiplier < b.multiplier;
  return a.site >= 0 && (b.site < 0 || a.site < b.site);
}

class Search {
 public:
  Search(const StressSites& sites, SiteGroup group, const Yardstick& yardstick,
         const StressField& held, const StressField& scaling)
      : sites_(sites), group_(group), yardstick_(yardstick), held_(held), scaling_(scaling) {}

  /// Least multiplier in a range of sites.
  Candidate least(FailureMode mode, Eigen::Index begin, Eigen::Index end) const {
    const auto bodies = bodies_judged_by(mode);
    const auto safe = safe_lengths(mode);
    Candidate least;
    for (auto site = begin; site < end; ++site) {
      // Most sites bear so little that nothing more needs to be asked.
      if (least.site >= 0 && length_at(least.multiplier, site) < safe[body(site)]) continue;
      if (!judged(mode, bodies, site)) continue;
      const Vector6d held = held_at(site);
      const Vector6d scaling = scaling_.col(site);
      // The admissible set is convex: when both ends of the way up to the least multiplier so far
      // lie in it, this site cannot cross earlier.
      if (least.site >= 0 && (held_.cols() == 0 || inside(mode, site, held)) &&
          inside(mode, site, held + least.multiplier * scaling)) {
        continue;
      }
      const auto multiplier = load_multiplier(mode, strength(site), held, scaling);
      const Candidate here{multiplier.value_or(no_limit), site};
      if (multiplier && before(here, least)) least = here;
    }
    return least;
  }

  /// The site with the greatest index under held + scaling, for a mode without a crossing.
  Eigen::Index most_stressed(FailureMode mode) const {
    const auto bodies = bodies_judged_by(mode);
    Eigen::Index most = -1;
    double greatest = -no_limit;
    for (Eigen::Index site = 0; site < scaling_.cols(); ++site) {
      if (!judged(mode, bodies, site)) continue;
      const double index =
          failure_index(mode, strength(site), held_at(site) + Vector6d(scaling_.col(site)));
      if (index > greatest) {
        greatest = index;
        most = site;
      }
    }
    return most;
  }

 private:
  std::size_t body(Eigen::Index site) const { return index(sites_.points[site].body); }
  const Strength& strength(Eigen::Index site) const {
    return yardstick_.strength_of_body[body(site)];
  }
  /// At most, of the stress anywhere on the way up to a multiple.
  double length_at(double multiple, Eigen::Index site) const {
    const double scaling = multiple * scaling_.col(site).norm();
    return held_.cols() == 0 ? scaling : scaling + held_.col(site).norm();
  }
  std::vector<double> safe_lengths(FailureMode mode) const {
    std::vector<double> lengths;
    for (const auto& strength : yardstick_.strength_of_body)
      lengths.push_back(safe_length(mode, strength));
    return lengths;
  }
  Vector6d held_at(Eigen::Index site) const {
    return held_.cols() == 0 ? Vector6d(Vector6d::Zero()) : Vector6d(held_.col(site));
  }
  std::vector<bool> bodies_judged_by(FailureMode mode) const {
    std::vector<bool> judged;
    for (const auto& strength : yardstick_.strength_of_body) {
      judged.push_back(judges(mode, strength, yardstick_.criterion));
    }
    return judged;
  }
  bool judged(FailureMode mode, const std::vector<bool>& bodies, Eigen::Index site) const {
    return sites_.group_of(site, mode) == group_ && bodies[body(site)] &&
           scaling_.col(site).allFinite() && (held_.cols() == 0 || held_.col(site).allFinite());
  }
  bool inside(FailureMode mode, Eigen::Index site, const Vector6d& stress) const {
    return failure_index(mode, strength(site), stress) < 1.0;
  }

  const StressSites& sites_;
  SiteGroup group_;
  const Yardstick& yardstick_;
  const StressField& held_;
  const StressField& scaling_;
};

}  // namespace

std::vector<LeastMultiplier> least_multipliers(const StressSites& sites, SiteGroup group,
                                               const Yardstick& yardstick, const StressField& held,
                                               const StressField& scaling, bool second_opinion,
                                               int threads) {
  const Search search(sites, group, yardstick, held, scaling);
  const auto modes = modes_of(yardstick, second_opinion);
  std::vector<Candidate> best(modes.size());
  std::mutex best_is_mine;
  in_parallel(scaling.cols(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (std::size_t i = 0; i < modes.size(); ++i) {
      const auto candidate = search.least(modes[i], begin, end);
      const std::lock_guard lock(best_is_mine);
      // Ties go to the lower site, so that the number of threads does not show.
      if (before(candidate, best[i])) best[i] = candidate;
    }
  });
  std::vector<LeastMultiplier> least;
  for (std::size_t i = 0; i < modes.size(); ++i) {
    const bool crosses = best[i].site >= 0;
    const auto site = crosses ? best[i].site : search.most_stressed(modes[i]);
    if (site < 0) continue;  // no site of this group is judged by this mode
    least.push_back({modes[i], crosses ? std::optional(best[i].multiplier) : std::nullopt, site});
  }
  return least;
}

}  // namespace crossgrain
