// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/prints.h"

#include <algorithm>
#include <map>
#include <set>
#include <variant>

namespace crossgrain {
namespace {

struct PrintedBody {
  Eigen::Vector3d build;
  bool layered;
  std::set<int> nodes;
};

/// Those that have elements.
std::map<BodyId, PrintedBody> printed_bodies(const TetrahedronMesh& mesh,
                                             const MaterialField& field) {
  std::map<BodyId, PrintedBody> bodies;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    PrintedBody& body = bodies[mesh.body_of_tetrahedron[t]];
    body.build = field.frame(t, 0).col(2);
    body.layered = std::holds_alternative<LayeredStrength>(field.material(t).strength);
    for (const int node : mesh.tetrahedra.col(t)) body.nodes.insert(node);
  }
  return bodies;
}

bool in_one_piece(const PrintedBody& a, const PrintedBody& b) {
  return a.build.isApprox(b.build, 1e-9) &&
         std::ranges::any_of(a.nodes, [&](int node) { return b.nodes.contains(node); });
}

}  // namespace

std::vector<Print> prints_of(const TetrahedronMesh& mesh, const MaterialField& field,
                             const std::vector<std::string>& body_names) {
  const auto bodies = printed_bodies(mesh, field);
  const bool any_layered =
      std::ranges::any_of(bodies, [](const auto& body) { return body.second.layered; });
  std::set<BodyId> left;
  for (const auto& [id, body] : bodies)
    if (body.layered || !any_layered) left.insert(id);
  std::vector<Print> prints;
  while (!left.empty()) {
    Print print{{}, {*left.begin()}, bodies.at(*left.begin()).build};
    left.erase(left.begin());
    for (std::size_t i = 0; i < print.bodies.size(); ++i)
      for (auto other = left.begin(); other != left.end();)
        if (in_one_piece(bodies.at(print.bodies[i]), bodies.at(*other))) {
          print.bodies.push_back(*other);
          other = left.erase(other);
        } else {
          ++other;
        }
    std::ranges::sort(print.bodies);
    for (const BodyId body : print.bodies)
      print.name += (print.name.empty() ? "" : " + ") + body_names[index(body)];
    prints.push_back(std::move(print));
  }
  return prints;
}

}  // namespace crossgrain
