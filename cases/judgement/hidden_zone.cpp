// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/hidden_zone.h"

#include <algorithm>
#include <limits>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/governing_place.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain {
namespace {

/// For each node the mean over the elements round it of their mean edges [mm].
Eigen::VectorXd mean_edges_at_nodes(const TetrahedronMesh& mesh) {
  Eigen::VectorXd sums = Eigen::VectorXd::Zero(mesh.node_count()),
                  counts = Eigen::VectorXd::Zero(mesh.node_count());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    const double edge = mean_edge(mesh, t);
    for (const int node : mesh.tetrahedra.col(t)) {
      sums[node] += edge;
      counts[node] += 1.0;
    }
  }
  return sums.cwiseQuotient(counts);
}

void add_weaker(std::vector<ModeResult>& places, const Judgement& judgement, double factor) {
  if (!judgement.applies) return;
  for (const ModeResult& mode : judgement.near_artificial)
    if (is_less(mode.factor.value, factor)) places.push_back(mode);
}

// Along one support the factor at resolved places and at others differs by what elements of several
// bead widths do to a singular stress: measured 3.6 and 3.9 on a lid's seal ring. Beyond this it is
// another kind of place.
constexpr double alike_within = 1.5;

/// Points near supports where elements are no longer than half a bead.
class ResolvedAtSupports {
 public:
  ResolvedAtSupports(const RunResult& result, const JudgedModel& model)
      : result_(result), sites_(model.sites) {
    const Eigen::VectorXd edges = mean_edges_at_nodes(model.mesh);
    for (Eigen::Index i = 0; i < sites_.positions.cols(); ++i)
      if (sites_.near_artificial[i] &&
          edges[sites_.points[i].node] <=
              edge_of_width * sites_.bead_width_of_body[index(sites_.points[i].body)])
        found_.push_back(i);
  }

  /// Whether one of them lies on the place's face and is, by the same mode in some service case,
  /// nearly as weak.
  bool alike(const ModeResult& place, Eigen::Index site) const {
    return std::ranges::any_of(found_, [&](Eigen::Index i) {
      return sites_.points[i].body == sites_.points[site].body &&
             sites_.face[i] == sites_.face[site] &&
             least_factor(place.mode, i) <= alike_within * *place.factor.value;
    });
  }

 private:
  double least_factor(FailureMode mode, Eigen::Index site) const {
    double least = std::numeric_limits<double>::infinity();
    for (const CaseResult& judged : result_.cases) {
      if (judged.kind == CaseKind::proof) continue;
      const auto factors = judged.fields.factor.find(mode);
      if (factors != judged.fields.factor.end()) least = std::min(least, factors->second[site]);
    }
    return least;
  }

  const RunResult& result_;
  const StressSites& sites_;
  std::vector<Eigen::Index> found_;
};

}  // namespace

std::vector<ModeResult> weaker_near_supports(const RunResult& result) {
  std::vector<ModeResult> places;
  if (!result.governing || !result.governing->factor.value) return places;
  const double factor = *result.governing->factor.value;
  for (const CaseResult& judged : result.cases) {
    if (judged.kind == CaseKind::proof) continue;
    add_weaker(places, judged.all_loads, factor);
    add_weaker(places, judged.scaling_loads, factor);
  }
  std::ranges::stable_sort(places, {}, [](const ModeResult& mode) { return *mode.factor.value; });
  return places;
}

std::optional<HiddenZone> hidden_zone(const RunResult& result, const JudgedModel& model) {
  const StressSites& sites = model.sites;
  std::optional<ResolvedAtSupports> resolved;
  for (const ModeResult& place : weaker_near_supports(result)) {
    const Eigen::Index site = site_of(sites, place);
    const BodyId body = sites.points[site].body;
    const double bead = sites.bead_width_of_body[index(body)];
    const double edge = mean_edge_near(model.mesh, body, place.position, widths_round_place * bead);
    if (edge <= edge_of_width * bead) continue;
    if (!resolved) resolved.emplace(result, model);
    if (!resolved->alike(place, site)) return HiddenZone{place, edge, bead};
  }
  return std::nullopt;
}

}  // namespace crossgrain
