// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/seal_facts.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cases/joint/seal_places.h"

namespace crossgrain {
namespace {

/// Points of one pair of triangles, which follow one another.
struct Patch {
  std::size_t first, last;
};

std::vector<Patch> patches_of(const InterfacePair& pair) {
  std::vector<Patch> patches;
  const auto triangles = [&](std::size_t i) {
    const auto& sides = pair.points[i].sides;
    return std::pair(sides[0].triangle, sides[1].triangle);
  };
  for (std::size_t i = 0; i < pair.points.size(); ++i) {
    if (patches.empty() || triangles(i) != triangles(i - 1)) patches.push_back({i, i});
    patches.back().last = i + 1;
  }
  return patches;
}

/// An edge of the mesh on the border of the pressed face.
struct BorderEdge {
  Eigen::Vector3d from, middle, to;
  bool wetted;
};

std::vector<BorderEdge> border_of(const InterfacePair& pair, const JoinedFluid* fluid,
                                  const TetrahedronMesh& mesh) {
  std::vector<int> triangles;
  for (const auto& point : pair.points) triangles.push_back(point.sides[0].triangle);
  std::ranges::sort(triangles);
  triangles.erase(std::unique(triangles.begin(), triangles.end()), triangles.end());
  // An edge is known by its middle node; on the border it is one triangle's alone.
  std::map<int, std::vector<std::array<int, 2>>> ends_of_middle;
  for (const int t : triangles)
    for (int e = 0; e < 3; ++e)
      ends_of_middle[mesh.triangles(3 + e, t)].push_back(
          {mesh.triangles(e, t), mesh.triangles((e + 1) % 3, t)});
  std::vector<BorderEdge> border;
  for (const auto& [middle, ends] : ends_of_middle) {
    if (ends.size() != 1) continue;
    const auto wet = [&](int node) {
      return fluid && std::ranges::binary_search(fluid->wetted_nodes, node);
    };
    border.push_back({mesh.nodes.col(ends[0][0]), mesh.nodes.col(middle),
                      mesh.nodes.col(ends[0][1]), wet(middle)});
  }
  return border;
}

bool round_a_screw(const Eigen::Vector3d& place, const std::vector<ElasticScrew>& screws,
                   double screw_hole) {
  return std::ranges::any_of(screws, [&](const ElasticScrew& screw) {
    const Eigen::Vector3d from = place - screw.thread.centre;
    // A hole's border, and not one a diameter away.
    return (from - screw.axis * screw.axis.dot(from)).norm() < screw_hole;
  });
}

std::vector<SealEdge> seal_edges(const std::vector<BorderEdge>& border,
                                 const std::vector<ElasticScrew>& screws, double screw_hole) {
  SealEdge wetted{{}, std::nullopt}, outer{{}, SealExit::outer_edge},
      holes{{}, SealExit::screw_hole};
  for (const BorderEdge& edge : border) {
    SealEdge& kind = edge.wetted                                      ? wetted
                     : round_a_screw(edge.middle, screws, screw_hole) ? holes
                                                                      : outer;
    for (const auto& place : {edge.from, edge.middle, edge.to}) kind.line.push_back(place);
  }
  std::vector<SealEdge> edges;
  for (SealEdge& edge : {std::ref(wetted), std::ref(outer), std::ref(holes)}) {
    if (!edge.line.empty()) edges.push_back(std::move(edge));
  }
  return edges;
}

double longest(const std::vector<BorderEdge>& border) {
  double length = 0.0;
  for (const BorderEdge& edge : border) length = std::max(length, (edge.to - edge.from).norm());
  return length;
}

/// Hard rubber needs the more (ASME VIII-1 Appendix 2), so that it stands for a material whose
/// hardness the case does not tell.
constexpr double unknown_hardness = 75.0;

/// Contact is averaged over this share of the gasket's width: the effective width of a narrow flat
/// gasket is half of it (ASME VIII-1 Appendix 2, Table 2-5.2: b0 = N / 2).
constexpr double effective_width = 0.5;

GasketConstants constants_of(const GasketSpec::Between& between) {
  GasketConstants constants = rubber_gasket_constants(between.hardness.value_or(unknown_hardness));
  if (between.contact_ratio) constants.m = *between.contact_ratio;
  if (between.seating) constants.y = *between.seating;
  return constants;
}

}  // namespace

SealFacts seal_facts(const GasketSpec& spec, const InterfacePair& pair, const JoinedFluid* fluid,
                     const std::vector<ElasticScrew>& screws, double screw_hole,
                     const TetrahedronMesh& mesh) {
  const GasketSpec::Between& between = *spec.between;
  std::vector<Eigen::Vector3d> positions;
  std::vector<double> areas;
  for (const Patch& patch : patches_of(pair)) {
    Eigen::Vector3d centre = Eigen::Vector3d::Zero();
    double area = 0.0;
    for (std::size_t i = patch.first; i < patch.last; ++i) {
      centre += pair.points[i].area * pair.points[i].position;
      area += pair.points[i].area;
    }
    positions.push_back(centre / area);
    areas.push_back(area);
  }
  const auto border = border_of(pair, fluid, mesh);
  SealFacts facts;
  facts.name = spec.name;
  facts.points =
      seal_places(positions, areas, seal_edges(border, screws, screw_hole), longest(border));
  facts.width = effective_width * between.shape.width;
  facts.constants = constants_of(between);
  facts.margin = between.seal_margin;
  facts.at_assembly = contact_at_assembly(facts.constants.y, between.seating_squeeze,
                                          apparent_modulus(between.shape, between.modulus));
  return facts;
}

std::vector<double> mean_at_places(const InterfacePair& pair, const Eigen::VectorXd& of_points) {
  std::vector<double> means;
  for (const Patch& patch : patches_of(pair)) {
    double sum = 0.0, area = 0.0;
    for (std::size_t i = patch.first; i < patch.last; ++i) {
      sum += pair.points[i].area * of_points[static_cast<Eigen::Index>(i)];
      area += pair.points[i].area;
    }
    means.push_back(sum / area);
  }
  return means;
}

}  // namespace crossgrain
