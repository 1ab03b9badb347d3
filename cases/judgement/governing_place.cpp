// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/governing_place.h"

#include <algorithm>
#include <limits>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/judgement.h"
#include "cases/judgement/verdict_sentence.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

// Within so many bead widths of the place edges may be half a bead width long: halving them once
// more changed the fit by 2.4 % at a right-angled inner corner.
constexpr double widths_around = 2.0;
constexpr double longest_edge_of_width = 0.5;

/// The point of this position that belongs to a body of this name.
std::size_t site_at(const StressSites& sites, const ModeResult& place) {
  std::size_t best = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < sites.points.size(); ++i) {
    if (sites.body_names[index(sites.points[i].body)] != place.body) continue;
    const double distance =
        (sites.positions.col(static_cast<Eigen::Index>(i)) - place.position).squaredNorm();
    if (!(distance < least)) continue;
    least = distance;
    best = i;
  }
  return best;
}

/// Judged as the result's governing place was: on all loads, or on the scaling ones.
std::optional<ModeResult> worst_at_nodes(const CaseResult& governing, const LoadCase& load_case,
                                         const JudgedModel& model, const Loading& loading,
                                         const ElementarySolution& solution,
                                         const MaterialField& field) {
  const auto combined =
      combine(load_case, loading,
              with_nodal_stress(solution, model.mesh, field, model.sites.points, loading));
  const Yardstick yardstick = yardstick_of(model.materials, load_case.strengths,
                                           MaterialSet::nominal, model.targets.criterion);
  const auto& sites = model.sites;
  const auto held = in_material_axes(combined.held, sites.points, field, model.threads);
  const auto scaling = in_material_axes(combined.scaling, sites.points, field, model.threads);
  const auto& by_pressure = governing.scaling_loads;
  Judgement judged =
      by_pressure.applies && by_pressure.governing &&
              is_less(by_pressure.factor.value, governing.all_loads.factor.value)
          ? judge(sites, yardstick, combined.anything_held ? held : StressField(6, 0), scaling,
                  model.threads)
          : judge(sites, yardstick, StressField(6, 0), held + scaling, model.threads);
  if (judged.governing) judged.governing->stress_basis = "raw";
  return judged.governing;
}

}  // namespace

double longest_edge_near(const TetrahedronMesh& mesh, BodyId body, const Eigen::Vector3d& point,
                         double distance) {
  double longest = 0.0;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    if (mesh.body_of_tetrahedron[t] != body) continue;
    const bool is_near = std::ranges::any_of(mesh.tetrahedra.col(t), [&](int node) {
      return (mesh.nodes.col(node) - point).norm() <= distance;
    });
    if (!is_near) continue;
    for (const auto& [a, b] : edges_of_tetrahedron)
      longest = std::max(
          longest,
          (mesh.nodes.col(mesh.tetrahedra(a, t)) - mesh.nodes.col(mesh.tetrahedra(b, t))).norm());
  }
  return longest;
}

std::optional<GoverningPlace> look_at_governing(const RunResult& result, const JudgedModel& model,
                                                const Loading& loading,
                                                const ElementarySolution& solution,
                                                const MaterialField& field) {
  const int number = least_case(result);
  if (number < 0 || !result.governing) return std::nullopt;
  const BodyId body = model.sites.points[site_at(model.sites, *result.governing)].body;
  GoverningPlace place{};
  place.bead_width_mm = model.sites.bead_width_of_body[index(body)];
  place.longest_edge_mm = longest_edge_near(model.mesh, body, result.governing->position,
                                            widths_around * place.bead_width_mm);
  place.converged = place.longest_edge_mm <= longest_edge_of_width * place.bead_width_mm;
  place.raw =
      worst_at_nodes(result.cases[number], loading.cases[number], model, loading, solution, field);
  return place;
}

}  // namespace crossgrain
