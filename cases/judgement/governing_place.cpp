// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/governing_place.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/judgement.h"
#include "mesh/features/sharp_edges.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain {
namespace {

/// Judged as the governing factor was: on all loads, or on the scaling ones.
std::optional<ModeResult> worst_at_nodes(const GoverningState& state, const LoadCase& load_case,
                                         const JudgedModel& model, const Loading& loading,
                                         const ElementarySolution& solution,
                                         const MaterialField& field) {
  const auto& sites = model.sites;
  const auto at_nodes = [&](const std::vector<double>& counts) {
    if (std::ranges::all_of(counts, [](double count) { return count == 0.0; }))
      return StressField(6, 0);
    const SumOfLoads sum = sum_of_loads(counts, loading, solution);
    const StressField stress =
        recover_stress(model.mesh, field, sites.points, sum.displacement, sum.temperature_change);
    return in_material_axes(stress, sites.points, field, model.threads);
  };
  const Yardstick yardstick = yardstick_of(model.materials, load_case.strengths,
                                           MaterialSet::nominal, model.targets.criterion);
  Judgement judged = state.held_apart ? judge(sites, yardstick, at_nodes(load_case.held),
                                              at_nodes(load_case.scaling), model.threads)
                                      : judge(sites, yardstick, StressField(6, 0),
                                              at_nodes(load_case.together()), model.threads);
  if (judged.governing) judged.governing->stress_basis = "raw";
  return judged.governing;
}

/// The least factor of the governing mode near a place.
std::optional<double> factor_near(const Eigen::Vector3d& place, double distance,
                                  const GoverningState& state, const StateStress& stress,
                                  const StressSites& sites) {
  const BodyId body = sites.points[state.site].body;
  std::optional<double> least;
  for (Eigen::Index i = 0; i < sites.positions.cols(); ++i)
    if (sites.points[i].body == body && !sites.near_artificial[i] &&
        (sites.positions.col(i) - place).norm() <= distance)
      if (const auto factor = stress.factor_at(i); is_less(factor, least)) least = factor;
  return least;
}

bool same_shape(const CadFace& a, const CadFace& b) {
  constexpr double same = 1e-6;
  const auto alike = [&](double x, double y) {
    return std::abs(x - y) <= same * std::max(std::abs(x), 1.0);
  };
  return a.id == b.id ||
         (a.kind == b.kind && a.kind != SurfaceKind::plane && a.kind != SurfaceKind::freeform &&
          a.hollow == b.hollow && alike(a.radius, b.radius) &&
          alike(a.minor_radius, b.minor_radius) && alike(a.half_angle, b.half_angle));
}

// Farther apart than this the factors of two places are not those of one kind of place.
constexpr double alike_within = 0.05;

class Resolved {
 public:
  Resolved(const GoverningState& state, const StateStress& stress, const Geometry& geometry,
           const JudgedModel& model)
      : state_(state),
        stress_(stress),
        geometry_(geometry),
        model_(model),
        body_(model.sites.points[state.site].body),
        bead_width_(model.sites.bead_width_of_body[index(body_)]) {}

  double mean_edge_at(const Eigen::Vector3d& place) const {
    return mean_edge_near(model_.mesh, body_, place, widths_round_place * bead_width_);
  }
  bool at(const Eigen::Vector3d& place) const {
    return mean_edge_at(place) <= edge_of_width * bead_width_;
  }

  /// Among the balls, where a place of the governing one's kind is resolved.
  std::optional<double> alike(const std::vector<SizeBall>& balls) const {
    std::optional<double> nearest;
    for (const SizeBall& ball : balls) {
      if (!is_of_its_kind(ball.centre) || !at(ball.centre)) continue;
      const auto factor = factor_near(ball.centre, bead_width_, state_, stress_, model_.sites);
      if (!factor || std::abs(*factor - state_.factor) > alike_within * state_.factor) continue;
      if (!nearest || std::abs(*factor - state_.factor) < std::abs(*nearest - state_.factor))
        nearest = factor;
    }
    return nearest;
  }

 private:
  bool is_of_its_kind(const Eigen::Vector3d& place) const {
    const auto& sites = model_.sites;
    Eigen::Index nearest = 0;
    (sites.positions.colwise() - place).colwise().squaredNorm().minCoeff(&nearest);
    const auto here = sites.face[state_.site], there = sites.face[nearest];
    return sites.points[nearest].body == body_ && here && there &&
           same_shape(geometry_.face(*here), geometry_.face(*there));
  }

  const GoverningState& state_;
  const StateStress& stress_;
  const Geometry& geometry_;
  const JudgedModel& model_;
  BodyId body_;
  double bead_width_;
};

}  // namespace

double mean_edge_near(const TetrahedronMesh& mesh, BodyId body, const Eigen::Vector3d& point,
                      double distance) {
  double sum = 0.0;
  int count = 0;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    if (mesh.body_of_tetrahedron[t] != body) continue;
    const bool is_near = std::ranges::any_of(mesh.tetrahedra.col(t), [&](int node) {
      return (mesh.nodes.col(node) - point).norm() <= distance;
    });
    if (!is_near) continue;
    sum += mean_edge(mesh, t);
    ++count;
  }
  return count == 0 ? 0.0 : sum / count;
}

GoverningPlace look_at_governing(const GoverningState& state, const std::vector<SizeBall>& balls,
                                 const Geometry& geometry, const JudgedModel& model,
                                 const Loading& loading, const ElementarySolution& solution,
                                 const MaterialField& field) {
  const Eigen::Vector3d position = model.sites.positions.col(state.site);
  const StateStress stress(state, model, loading, solution, field);
  const Resolved resolved(state, stress, geometry, model);
  GoverningPlace place{};
  place.bead_width_mm = model.sites.bead_width_of_body[index(model.sites.points[state.site].body)];
  place.mean_edge_mm = resolved.mean_edge_at(position);
  place.resolved = resolved.at(position);
  const auto edge = nearest_inner_edge(geometry, model.sites.points[state.site].body, position,
                                       widths_round_place * place.bead_width_mm);
  if (edge) place.inner_edge = edge->edge;
  if (edge && !place.resolved) place.resolved_alike = resolved.alike(balls);
  place.raw =
      worst_at_nodes(state, loading.cases[state.load_case], model, loading, solution, field);
  return place;
}

}  // namespace crossgrain
