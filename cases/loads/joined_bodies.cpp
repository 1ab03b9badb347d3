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

bool among(FaceId face, const std::vector<FaceId>& faces) {
  return std::ranges::find(faces, face) != faces.end();
}

/// Whether faces share an edge.
bool border(const Geometry& geometry, const std::vector<FaceId>& faces,
            const std::vector<FaceId>& others) {
  const auto is_beside = [](const CadEdge& edge, const std::vector<FaceId>& all) {
    return std::ranges::any_of(edge.faces, [&](FaceId face) { return among(face, all); });
  };
  return std::ranges::any_of(geometry.edges, [&](const CadEdge& edge) {
    return is_beside(edge, faces) && is_beside(edge, others);
  });
}

/// Faces that meet, as the case speaks of them.
struct MeetingChoice {
  Place place;
  std::string name;  ///< "[[contact]] 'rim'"
  const FaceChoice &faces, &mate;
};

/// What lets a fluid in where it opens: a gasket that the fluid relieves, faces that only press.
std::vector<MeetingChoice> opened_by(const PressureLoad& pressure, const CaseFile& case_file) {
  std::vector<MeetingChoice> meetings;
  for (const ContactSpec& contact : case_file.contacts)
    if (contact.kind == ContactKind::unilateral)
      meetings.push_back(
          {contact.place, "[[contact]] '" + contact.name + "'", contact.faces, contact.mate});
  for (const GasketSpec& gasket : case_file.gaskets)
    if (gasket.between && gasket.pressure == pressure.name)
      meetings.push_back(
          {gasket.place, "[[gasket]] '" + gasket.name + "'", gasket.faces, gasket.between->mate});
  return meetings;
}

/// @throws std::invalid_argument for a face that the pressure acts on although it meets another.
void refuse_wetted(const MeetingChoice& meeting, const std::vector<FaceId>& faces,
                   const PressureLoad& pressure, const std::vector<FaceId>& wetted) {
  for (const FaceId face : faces)
    if (among(face, wetted))
      throw std::invalid_argument(
          at(meeting.place) + meeting.name + ": face " + std::to_string(number(face)) +
          " meets its mate, but [[pressure]] '" + pressure.name +
          "' acts on all of it; split the face in CAD where they begin to meet, or leave it out of "
          "one of them");
}

/// Whether the joint can let a fluid in.
bool may_follow(const PressureLoad& pressure, const std::vector<FaceId>& wetted,
                const CaseFile& case_file, const Geometry& geometry, const Features& features) {
  bool follows = std::ranges::any_of(case_file.gaskets, [&](const GasketSpec& gasket) {
    return gasket.pressure == pressure.name;
  });
  for (const MeetingChoice& meeting : opened_by(pressure, case_file))
    for (const FaceChoice* choice : {&meeting.faces, &meeting.mate}) {
      const auto faces = choose_faces(geometry, features, *choice).faces;
      refuse_wetted(meeting, faces, pressure, wetted);
      follows = follows || border(geometry, wetted, faces);
    }
  return follows;
}

/// The fluids that the joint keeps in: where it opens, they follow.
void add_fluids(const CaseFile& case_file, const Geometry& geometry, const Features& features,
                const TetrahedronMesh& mesh, JoinedBodies& joined) {
  for (const PressureLoad& pressure : case_file.pressures) {
    const auto acting = std::ranges::find(joined.acting, pressure.name, &ElementaryLoad::name);
    if (acting == joined.acting.end()) continue;
    const auto wetted = choose_faces(geometry, features, pressure.faces).faces;
    if (!may_follow(pressure, wetted, case_file, geometry, features)) continue;
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
