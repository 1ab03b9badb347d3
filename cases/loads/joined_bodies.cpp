// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joined_bodies.h"

#include <algorithm>
#include <stdexcept>

#include "cases/case_file/case_place.h"
#include "cases/face_choice/face_choice.h"
#include "cases/loads/joined_faces.h"
#include "cases/loads/pressure_loads.h"
#include "cases/loads/seated_screws.h"
#include "solver/elements/face_triangles.h"

namespace crossgrain {
namespace {

std::vector<int> nodes_of(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces) {
  std::vector<int> nodes;
  for (const int t : triangles_on(mesh, faces, "a fluid"))
    for (const int node : mesh.triangles.col(t)) nodes.push_back(node);
  std::ranges::sort(nodes);
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

/// The fluids that gaskets keep in: where a gasket opens, they follow.
void add_fluids(const CaseFile& case_file, const Geometry& geometry, const Features& features,
                const TetrahedronMesh& mesh, JoinedBodies& joined) {
  for (const PressureLoad& pressure : case_file.pressures) {
    const auto relieves = [&](const GasketSpec& g) { return g.pressure == pressure.name; };
    if (std::ranges::none_of(case_file.gaskets, relieves)) continue;
    const auto acting = std::ranges::find(joined.acting, pressure.name, &ElementaryLoad::name);
    if (acting == joined.acting.end()) continue;
    const auto wetted = choose_faces(geometry, features, pressure.faces).faces;
    const double greatest = greatest_pressure(pressure, wetted, mesh);
    // A vacuum draws the faces together; there is nothing that could follow.
    if (!(greatest > 0.0)) continue;
    joined.fluids.push_back({static_cast<std::size_t>(acting - joined.acting.begin()), greatest,
                             nodes_of(mesh, wetted)});
  }
}

}  // namespace

JoinedBodies join_bodies(const CaseFile& case_file, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field, std::vector<ElementaryLoad> acting) {
  JoinedBodies joined;
  joined.acting = std::move(acting);
  for (const ContactSpec& spec : case_file.contacts) {
    joined.joint.pairs.push_back(pair_contact(spec, geometry, features, mesh, field));
    joined.gasket_growth.push_back(0.0);
  }
  for (const GasketSpec& spec : case_file.gaskets) {
    if (!spec.between) {
      throw std::invalid_argument(at(spec.place) + "[[gasket]] '" + spec.name +
                                  "': other bodies of this case are joined; add mate, the faces "
                                  "that it lies on at the other body");
    }
    joined.joint.pairs.push_back(pair_gasket(spec, geometry, features, mesh, field));
    joined.gasket_growth.push_back(spec.between->expansion * spec.between->shape.thickness);
  }
  for (const BoltSpec& spec : case_file.bolts) {
    SeatedScrews seated = told_at(spec.place, "[[bolt]] '" + spec.name + "'", [&] {
      return seat_screws(spec, static_cast<int>(joined.joint.pairs.size()), geometry, features,
                         mesh, field);
    });
    seated.group.first = joined.joint.screws.size();
    joined.screws.push_back(seated.group);
    std::ranges::move(seated.screws, std::back_inserter(joined.joint.screws));
  }
  add_fluids(case_file, geometry, features, mesh, joined);
  return joined;
}

}  // namespace crossgrain
