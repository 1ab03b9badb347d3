// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/raw_stress.h"

#include <algorithm>
#include <set>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/judgement.h"
#include "mesh/features/sharp_edges.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain {
namespace {

using FacePair = std::pair<FaceId, FaceId>;

/// Of every node of one body on two CAD faces or more, these faces.
std::map<int, std::set<FaceId>> nodes_between_faces(const TetrahedronMesh& mesh, BodyId body) {
  std::map<int, std::set<FaceId>> faces;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t)
    if (mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[t]] == body)
      for (const int node : mesh.triangles.col(t)) faces[node].insert(mesh.face_of_triangle[t]);
  std::erase_if(faces, [](const auto& entry) { return entry.second.size() < 2; });
  return faces;
}

/// For each of these nodes the mean over the elements round it of their mean edges [mm].
std::map<int, double> mean_edges_at(const TetrahedronMesh& mesh, BodyId body,
                                    const std::map<int, std::set<FaceId>>& nodes) {
  std::map<int, std::pair<double, int>> sums;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    if (mesh.body_of_tetrahedron[t] != body) continue;
    for (const int node : mesh.tetrahedra.col(t)) {
      if (!nodes.contains(node)) continue;
      sums[node].first += mean_edge(mesh, t);
      ++sums[node].second;
    }
  }
  std::map<int, double> means;
  for (const auto& [node, sum] : sums) means[node] = sum.first / sum.second;
  return means;
}

std::map<FacePair, std::vector<const CadEdge*>> edges_by_faces(const Geometry& geometry) {
  std::map<FacePair, std::vector<const CadEdge*>> edges;
  for (const CadEdge& edge : geometry.edges)
    if (edge.faces.size() == 2 && edge.faces[0] != edge.faces[1])
      edges[std::minmax(edge.faces[0], edge.faces[1])].push_back(&edge);
  return edges;
}

std::optional<double> least_factor(const std::vector<FailureMode>& modes, const Strength& strength,
                                   const Vector6d& held, const Vector6d& scaling) {
  std::optional<double> least_so_far;
  for (const FailureMode mode : modes)
    least_so_far = least(least_so_far, load_multiplier(mode, strength, held, scaling));
  return least_so_far;
}

}  // namespace

RawStress::RawStress(const GoverningState& state, const JudgedModel& model, const Loading& loading,
                     const ElementarySolution& solution, const MaterialField& field)
    : state_(state), model_(model) {
  const LoadCase& load_case = loading.cases[state.load_case];
  yardstick_ = yardstick_of(model.materials, load_case.strengths, MaterialSet::nominal,
                            model.targets.criterion);
  const auto at_nodes = [&](const std::vector<double>& counts) {
    if (std::ranges::all_of(counts, [](double count) { return count == 0.0; }))
      return StressField(6, 0);
    const SumOfLoads sum = sum_of_loads(counts, loading, solution);
    const StressField stress = recover_stress(model.mesh, field, model.sites.points,
                                              sum.displacement, sum.temperature_change);
    return in_material_axes(stress, model.sites.points, field, model.threads);
  };
  held_ = state.held_apart ? at_nodes(load_case.held) : StressField(6, 0);
  scaling_ = at_nodes(state.held_apart ? load_case.scaling : load_case.together());
}

std::optional<ModeResult> RawStress::worst() const {
  Judgement judged = judge(model_.sites, yardstick_, held_, scaling_, model_.threads);
  if (judged.governing) judged.governing->stress_basis = "raw";
  return judged.governing;
}

std::map<EdgeId, RawAtEdge> RawStress::at_edges(const Geometry& geometry) const {
  const StressSites& sites = model_.sites;
  const BodyId body = sites.points[state_.site].body;
  const auto nodes = nodes_between_faces(model_.mesh, body);
  const auto mean_edges = mean_edges_at(model_.mesh, body, nodes);
  const auto edges = edges_by_faces(geometry);
  const Strength& strength = yardstick_.strength_of_body[index(body)];
  std::vector<FailureMode> modes = modes_of(yardstick_, false);
  std::erase_if(modes,
                [&](FailureMode mode) { return !judges(mode, strength, yardstick_.criterion); });
  std::map<EdgeId, RawAtEdge> found;
  for (Eigen::Index i = 0; i < scaling_.cols(); ++i) {
    const auto faces = nodes.find(sites.points[i].node);
    if (sites.points[i].body != body || faces == nodes.end()) continue;
    const Vector6d held = held_.cols() == 0 ? Vector6d(Vector6d::Zero()) : Vector6d(held_.col(i));
    const auto factor = least_factor(modes, strength, held, scaling_.col(i));
    if (!factor) continue;
    for (auto a = faces->second.begin(); a != faces->second.end(); ++a)
      for (auto b = std::next(a); b != faces->second.end(); ++b) {
        const auto between = edges.find({*a, *b});
        if (between == edges.end()) continue;
        const CadEdge& edge = **std::ranges::min_element(
            between->second, {},
            [&](const CadEdge* e) { return distance_to(*e, sites.positions.col(i)); });
        const auto [at, is_new] = found.try_emplace(edge.id);
        if (is_new || *factor < at->second.factor)
          at->second = {*factor, mean_edges.at(sites.points[i].node)};
      }
  }
  return found;
}

}  // namespace crossgrain
