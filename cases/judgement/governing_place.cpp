// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/governing_place.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "mesh/features/sharp_edges.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain {
namespace {

/// The least factor of the governing mode near a place.
std::optional<double> factor_near(const Eigen::Vector3d& place, double distance,
                                  const GoverningState& state, const StateStress& stress,
                                  const StressSites& sites) {
  const BodyId body = sites.points[state.site].body;
  std::optional<double> least;
  for (Eigen::Index i = 0; i < sites.positions.cols(); ++i)
    if (sites.points[i].body == body && sites.group_of(i, state.mode) == SiteGroup::judged &&
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
                                 const Geometry& geometry, const std::vector<EdgeId>& other_edges,
                                 const JudgedModel& model, const Loading& loading,
                                 const ElementarySolution& solution, const MaterialField& field) {
  const Eigen::Vector3d position = model.sites.positions.col(state.site);
  const StateStress stress(state, model, loading, solution, field);
  const Resolved resolved(state, stress, geometry, model);
  GoverningPlace place{};
  place.bead_width_mm = model.sites.bead_width_of_body[index(model.sites.points[state.site].body)];
  place.mean_edge_mm = resolved.mean_edge_at(position);
  place.resolved = resolved.at(position);
  const BodyId body = model.sites.points[state.site].body;
  const double near = widths_round_place * place.bead_width_mm;
  const auto inner = nearest_inner_edge(geometry, body, position, near);
  if (inner) place.inner_edge = inner->edge;
  // An edge of a support spoils what elements that touch it say, and these may be longer.
  const auto other = nearest_of(geometry, other_edges, body, position,
                                inner ? inner->distance : std::max(near, place.mean_edge_mm));
  if (other && !(inner && other->edge == inner->edge)) place.other_edge = other->edge;
  if ((inner || other) && !place.resolved) place.resolved_alike = resolved.alike(balls);
  return place;
}

bool sees_bead(const Geometry& geometry, const std::vector<EdgeId>& other_edges,
               const JudgedModel& model, Eigen::Index site) {
  const BodyId body = model.sites.points[site].body;
  const Eigen::Vector3d position = model.sites.positions.col(site);
  const double bead = model.sites.bead_width_of_body[index(body)];
  const double near = widths_round_place * bead;
  const double mean_edge = mean_edge_near(model.mesh, body, position, near);
  if (!nearest_inner_edge(geometry, body, position, near) &&
      !nearest_of(geometry, other_edges, body, position, std::max(near, mean_edge)))
    return true;
  return mean_edge <= edge_of_width * bead;
}

}  // namespace crossgrain
