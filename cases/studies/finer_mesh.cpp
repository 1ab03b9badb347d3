// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/finer_mesh.h"

#include <algorithm>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/governing_place.h"
#include "cases/judgement/hidden_zone.h"
#include "cases/judgement/verdict_sentence.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain {
namespace {

// A place whose factor is not this much above the least one may turn out the weakest when its
// stress is resolved. Common practice, no source: one that is missed governs the next mesh and gets
// its ball then.
constexpr double weak_within = 1.15;
constexpr std::size_t most_places_at_once = 3;
// Aiming below what is asked saves a pass: the estimate falls more slowly than foretold where the
// stress is singular.
constexpr double aim_within = 0.5;

// The mesher is told the longest edge, a place is judged by its elements' mean edges. Their ratio
// in a ball is about 1.65; some is kept in hand, for a place just missed costs another pass.
constexpr double longest_of_mean_edge = 1.5;

struct WeakPlace {
  double factor;
  Eigen::Vector3d position;
  double bead_width;
};

double bead_width_at(const StressSites& sites, const std::string& body) {
  const auto at = std::ranges::find(sites.body_names, body);
  return sites.bead_width_of_body[at - sites.body_names.begin()];
}

void add_modes(std::vector<WeakPlace>& places, const Judgement& judgement,
               const StressSites& sites) {
  for (const ModeResult& mode : judgement.modes)
    if (mode.mode != FailureMode::tsai_wu && mode.factor.value)
      places.push_back({*mode.factor.value, mode.position, bead_width_at(sites, mode.body)});
}

/// Where every mode of every case that speaks for service is worst, all sites of the governing case
/// that are nearly as weak as the worst, and places at supports that hide weak ones beside them.
std::vector<WeakPlace> weak_places(const RunResult& result, const StressSites& sites,
                                   double largest_factor) {
  std::vector<WeakPlace> places;
  for (const CaseResult& judged : result.cases) {
    if (judged.kind == CaseKind::proof) continue;
    add_modes(places, judged.all_loads, sites);
    if (judged.scaling_loads.applies) add_modes(places, judged.scaling_loads, sites);
  }
  const Eigen::VectorXd& overall = result.cases[least_case(result)].fields.overall;
  for (Eigen::Index i = 0; i < overall.size(); ++i)
    if (overall[i] <= largest_factor && !sites.near_artificial[i])
      places.push_back({overall[i], sites.positions.col(i),
                        sites.bead_width_of_body[index(sites.points[i].body)]});
  if (result.hidden_zone)
    for (const ModeResult& mode : weaker_near_supports(result))
      places.push_back({*mode.factor.value, mode.position, bead_width_at(sites, mode.body)});
  std::erase_if(places, [&](const WeakPlace& place) { return place.factor > largest_factor; });
  std::ranges::stable_sort(places, {}, &WeakPlace::factor);
  return places;
}

bool lies_within(const std::vector<SizeBall>& balls, const Eigen::Vector3d& position) {
  // Half of a ball about another place is not enough to judge by.
  return std::ranges::any_of(balls, [&](const SizeBall& ball) {
    return (ball.centre - position).norm() <= 0.25 * ball.radius;
  });
}

/// Balls round weak places that have none yet.
std::vector<SizeBall> further_balls(const RunResult& result, const StressSites& sites,
                                    const std::vector<SizeBall>& balls) {
  const double factor = *result.governing->factor.value;
  std::vector<SizeBall> all = balls;
  for (const WeakPlace& place : weak_places(result, sites, weak_within * factor)) {
    if (all.size() == balls.size() + most_places_at_once) break;
    if (lies_within(all, place.position)) continue;
    all.push_back({place.position, widths_round_place * place.bead_width,
                   longest_of_mean_edge * edge_of_width * place.bead_width});
  }
  return all;
}

/// A run that refines goes on while the factor is a guess, whether a wish is stated or not.
std::optional<double> error_asked(const Refining& refining) {
  if (refining.error || !refining.worst_place) return refining.error;
  return coarse_mesh;
}

}  // namespace

NextMesh next_mesh(const JudgedMesh& mesh, const Refining& refining, double seconds) {
  const RunResult& result = mesh.result;
  if (!result.governing || !result.governing->factor.value || !result.governing_place ||
      !result.mesh_error)
    return {std::nullopt, "no place governs"};
  const double factor = *result.governing->factor.value;
  const bool place_is_fine =
      (result.governing_place->converged() && !result.hidden_zone) || !refining.worst_place;
  const std::optional<double> asked = error_asked(refining);
  const bool error_is_small = !asked || result.mesh_error->factor <= *asked * factor;
  if (place_is_fine && error_is_small) return {std::nullopt, ""};
  if (mesh.options.mesh_file) return {std::nullopt, "the mesh was read from a file"};
  const auto passes = static_cast<int>(std::ssize(result.mesh_passes));
  if (passes >= refining.passes_max)
    return {std::nullopt, "passes_max of " + std::to_string(refining.passes_max) + " is reached"};
  if (seconds >= refining.seconds_max) return {std::nullopt, "the time allowed for it has run out"};

  MeshOptions options = mesh.options;
  if (!place_is_fine) {
    options.balls = further_balls(result, mesh.model.sites, mesh.options.balls);
    if (options.balls.size() == mesh.options.balls.size() && (error_is_small || !refining.error))
      return {std::nullopt, "elements at the weakest places are as short as they get"};
  }
  // Where a weak place is not resolved the estimate speaks of its sizes more than of the error.
  if (!error_is_small && (place_is_fine || refining.error)) {
    const double tetrahedra = static_cast<double>(mesh.model.mesh.tetrahedron_count());
    const double most = tetrahedra * options.unknowns_max / mesh.model.mesh.unknowns();
    if (most < 1.05 * tetrahedra)
      return {std::nullopt, "unknowns_max of " + std::to_string(options.unknowns_max) +
                                " leaves no room for a finer mesh"};
    options.wanted_sizes =
        wanted_sizes(mesh.model.mesh, mesh.factor_shares, {aim_within * *asked * factor, most});
  }
  return {options, ""};
}

std::optional<double> extrapolated(const std::vector<MeshPass>& passes) {
  if (passes.size() < 2) return std::nullopt;
  const MeshPass &before = passes[passes.size() - 2], &last = passes.back();
  const auto counts = [](const MeshPass& pass) {
    return pass.governing && pass.governing->factor.value && pass.error && pass.place &&
           pass.place->converged();
  };
  if (!counts(before) || !counts(last) || before.governing->mode != last.governing->mode ||
      !((before.governing->position - last.governing->position).norm() <=
        before.place->mean_edge_mm))
    return std::nullopt;
  const double fallen_by = before.error->factor - last.error->factor;
  if (!(fallen_by > before.error->factor / 3.0)) return std::nullopt;
  const double factor = *last.governing->factor.value;
  return factor + (factor - *before.governing->factor.value) * last.error->factor / fallen_by;
}

}  // namespace crossgrain
