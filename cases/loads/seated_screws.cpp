// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/seated_screws.h"

#include <cmath>
#include <numbers>

#include "cases/case_file/case_place.h"
#include "cases/face_choice/face_choice.h"
#include "cases/joint/preload_loss.h"
#include "cases/joint/screw_compliance.h"
#include "mesh/geometry/geometry_words.h"
#include "solver/elements/face_triangles.h"
#include "solver/interface/head_pressure.h"

namespace crossgrain {
namespace {

/// A head's ring may hang over its seat's edge by this share of its area: chamfers of the hole, and
/// a mesh's polygons (common practice, no source).
constexpr double least_seated_share = 0.8;

ScrewSize size_of(const BoltSpec& spec) {
  if (const ScrewSize* size = find_screw_size(spec.size)) return *size;
  throw std::invalid_argument("size: '" + spec.size +
                              "' is not known, and a screw between two bodies "
                              "is a spring whose cross-section counts; known are " +
                              known_screw_sizes());
}

void require_ring(const AreaMotion& head, const BoltSpec& spec, const ScrewSize& size,
                  const std::string& hole) {
  const double ring =
      0.25 * std::numbers::pi *
      (spec.head_diameter * spec.head_diameter - size.clearance_hole * size.clearance_hole);
  if (head.area >= least_seated_share * ring) return;
  throw std::invalid_argument(
      "head_seat: of the ring of " + words(ring) + " mm^2 under the head of " + hole +
      " (head_diameter " + words(spec.head_diameter) + " mm) only " + words(head.area) +
      " mm^2 lie on the chosen faces, less than " + words(100.0 * least_seated_share) +
      " %; choose the face under the head, or a smaller head or washer");
}

ElasticScrew seat_screw(const BoltSpec& spec, const ScrewSize& size, const Hole& hole,
                        const std::vector<FaceId>& seats, const TetrahedronMesh& mesh) {
  const std::string name = "hole " + std::to_string(hole.id);
  ElasticScrew screw;
  screw.name = spec.name + ", " + name;
  screw.thread = area_motion(mesh, hole.wall, {}, "the thread of " + name);
  screw.head =
      area_motion(mesh, seats, pressure_under_head(hole.mouth, hole.axis, 0.5 * spec.head_diameter),
                  "head_seat on the axis of " + name);
  require_ring(screw.head, spec, size, name);
  const Eigen::Vector3d between = screw.head.centre - screw.thread.centre;
  screw.axis = between.dot(hole.axis) < 0.0 ? Eigen::Vector3d(-hole.axis) : hole.axis;
  // From the seat to the near end of the threaded hole.
  const double clamped = screw.axis.dot(between) - 0.5 * hole.depth;
  if (!(clamped > 0.0)) {
    throw std::invalid_argument("the head of " + name + " does not lie beyond its thread (" +
                                words(clamped) +
                                " mm from its end); exchange head_seat and "
                                "thread, or choose the seat of the other body");
  }
  const ScrewShank shank{clamped, 0.0, spec.modulus};
  screw.axial_stiffness = 1.0 / screw_compliance(shank, size);
  screw.lateral_stiffness = lateral_stiffness(shank, size).held_head;
  return screw;
}

/// Of what fills the hole: an insert in a printed body, else the screw itself [1/K].
double thread_expansion(const BoltSpec& spec, const Hole& hole, const TetrahedronMesh& mesh,
                        const MaterialField& field) {
  const int wall = triangles_on(mesh, hole.wall, "thread").front();
  const SolidMaterial& body = field.material(mesh.tetrahedron_of_triangle[wall]);
  return std::holds_alternative<LayeredStrength>(body.strength) ? spec.insert_expansion
                                                                : spec.expansion;
}

}  // namespace

SeatedScrews seat_screws(const BoltSpec& spec, int contact_pairs, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field) {
  const ScrewSize size = size_of(spec);
  if (!spec.head_seat) {
    throw std::invalid_argument(
        "the bodies are joined, so that the screws are springs between them: add head_seat, the "
        "faces under the heads");
  }
  const auto holes = choose_faces(geometry, features, spec.thread).holes;
  if (holes.empty()) {
    throw std::invalid_argument("thread: " + spec.thread.text +
                                " chooses no holes; choose the threaded holes by their diameter");
  }
  const auto seats = choose_faces(geometry, features, *spec.head_seat).faces;
  SeatedScrews seated;
  double clamped = 0.0;
  for (const Hole& hole : holes) {
    seated.screws.push_back(seat_screw(spec, size, hole, seats, mesh));
    const ElasticScrew& screw = seated.screws.back();
    clamped += screw.axis.dot(screw.head.centre - screw.thread.centre) - 0.5 * hole.depth;
  }
  clamped /= static_cast<double>(holes.size());
  seated.group = {
      .name = spec.name,
      .first = 0,
      .count = holes.size(),
      .preload = {spec.preload_min, spec.preload_nominal, spec.preload_max},
      .kept = 1.0 - spec.creep_loss,
      .embedding = spec.embedding.value_or(usual_embedding(contact_pairs)),
      // The thread follows the hole's wall at its mid-depth, to which the insert reaches.
      .expansion = spec.expansion * clamped +
                   thread_expansion(spec, holes.front(), mesh, field) * 0.5 * holes.front().depth,
      .clamped_length = clamped,
      .hole = holes.front(),
      .head_body = geometry.face(seats.front()).body,
      .head_radius = 0.5 * spec.head_diameter};
  return seated;
}

}  // namespace crossgrain
