// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/stress_sites.h"

#include <algorithm>
#include <map>

#include "cases/face_choice/near_faces.h"

namespace crossgrain {
namespace {

/// The first face, in id order, of every node on the surface, as each body sees it.
std::map<std::pair<BodyId, int>, FaceId> faces_of_nodes(const TetrahedronMesh& mesh) {
  std::map<std::pair<BodyId, int>, FaceId> face_of_node;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    const BodyId body = mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[t]];
    for (const int node : mesh.triangles.col(t)) {
      const auto [entry, is_new] = face_of_node.try_emplace({body, node}, mesh.face_of_triangle[t]);
      if (!is_new && mesh.face_of_triangle[t] < entry->second) {
        entry->second = mesh.face_of_triangle[t];
      }
    }
  }
  return face_of_node;
}

/// As deep as the head's radius: below that nothing tells how its force spread (Saint-Venant).
bool lies_under(const HeadSeat& head, const Eigen::Vector3d& position, double reach) {
  const Eigen::Vector3d from_middle = position - head.middle;
  const double along = head.axis.dot(from_middle);
  return along <= reach && along >= -head.radius &&
         (from_middle - along * head.axis).norm() <= head.radius + reach;
}

bool crushes(FailureMode mode) {
  return mode == FailureMode::build_compression || mode == FailureMode::in_layer_compression;
}

}  // namespace

SiteGroup StressSites::group_of(Eigen::Index site, FailureMode mode) const {
  if (near_artificial[site]) return SiteGroup::near_artificial;
  return under_head[site] && crushes(mode) ? SiteGroup::under_heads : SiteGroup::judged;
}

StressSites stress_sites(const TetrahedronMesh& mesh, const Geometry& geometry,
                         const ArtificialPlaces& artificial,
                         const std::vector<double>& bead_width_of_body) {
  StressSites sites;
  sites.points = stress_points(mesh);
  sites.positions.resize(3, static_cast<Eigen::Index>(sites.points.size()));
  const auto face_of_node = faces_of_nodes(mesh);
  for (std::size_t i = 0; i < sites.points.size(); ++i) {
    const auto& point = sites.points[i];
    sites.positions.col(static_cast<Eigen::Index>(i)) = mesh.nodes.col(point.node);
    const auto face = face_of_node.find({point.body, point.node});
    sites.face.push_back(face == face_of_node.end() ? std::nullopt : std::optional(face->second));
  }
  sites.near_artificial = near_faces(mesh, artificial.faces, sites.points, bead_width_of_body);
  const std::vector<char> at_edges =
      near_edges(mesh, geometry, artificial.edges, sites.points, bead_width_of_body);
  for (std::size_t i = 0; i < at_edges.size(); ++i) sites.near_artificial[i] |= at_edges[i];
  for (const StressPoint& point : sites.points)
    sites.under_head.push_back(std::ranges::any_of(artificial.heads, [&](const HeadSeat& head) {
      return head.body == point.body &&
             lies_under(head, mesh.nodes.col(point.node), bead_width_of_body[index(point.body)]);
    }));
  for (const auto& body : geometry.bodies) sites.body_names.push_back(body.name);
  sites.bead_width_of_body = bead_width_of_body;
  sites.fit = BeadFit(mesh, sites.points, bead_width_of_body);
  return sites;
}

std::vector<Eigen::Index> sites_of(const StressSites& sites, const std::vector<BodyId>& bodies) {
  std::vector<Eigen::Index> own;
  for (Eigen::Index i = 0; i < std::ssize(sites.points); ++i)
    if (std::ranges::find(bodies, sites.points[i].body) != bodies.end()) own.push_back(i);
  return own;
}

StressSites chosen_sites(const StressSites& all, const std::vector<Eigen::Index>& chosen) {
  StressSites sites;
  sites.positions = all.positions(Eigen::all, chosen);
  for (const Eigen::Index i : chosen) {
    sites.points.push_back(all.points[i]);
    sites.face.push_back(all.face[i]);
    sites.near_artificial.push_back(all.near_artificial[i]);
    sites.under_head.push_back(all.under_head[i]);
  }
  sites.body_names = all.body_names;
  sites.bead_width_of_body = all.bead_width_of_body;
  return sites;
}

}  // namespace crossgrain
