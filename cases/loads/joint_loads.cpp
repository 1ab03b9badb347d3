// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joint_loads.h"

#include <cmath>
#include <sstream>

#include "cases/case_file/case_place.h"

namespace crossgrain {
namespace {

/// Directions within this of each other count as one [cosine of 5 degrees].
constexpr double alike = 0.9961946980917455;

std::string words(const Eigen::Vector3d& v) {
  std::ostringstream text;
  text << "(" << v[0] << ", " << v[1] << ", " << v[2] << ")";
  return text.str();
}

/// Area-weighted mean of the faces' outward normals.
Eigen::Vector3d mean_normal(const std::vector<FaceId>& faces, const Geometry& geometry) {
  Eigen::Vector3d area = Eigen::Vector3d::Zero();
  for (const FaceId face : faces) area += geometry.face(face).vector_area;
  return area.normalized();
}

/// Turn a hole's axis towards its screw's head.
void turn_to_head(Hole& hole, const Eigen::Vector3d& side, const BoltSpec& spec) {
  if (hole.axis.dot(side) < 0.0) hole.axis = -hole.axis;
  if (hole.axis.dot(side) >= alike) return;
  throw std::invalid_argument("hole " + std::to_string(hole.id) + " runs along " +
                              words(hole.axis) + ", not square to the face that '" + spec.name +
                              "' presses, whose normal is " + words(side) +
                              "; choose the holes that go with it");
}

/// 1 under the head, 0 outside it.
ScalarOfPosition under_head(const Hole& hole, double head_diameter) {
  return [axis = hole.axis, point = hole.mouth,
          radius = 0.5 * head_diameter](const Eigen::Vector3d& x) {
    const Eigen::Vector3d from_axis = (x - point) - axis * axis.dot(x - point);
    return from_axis.norm() <= radius ? 1.0 : 0.0;
  };
}

Eigen::VectorXd head_forces(const BoltSpec& spec, const Hole& hole,
                            const std::vector<FaceId>& seats, const TetrahedronMesh& mesh) {
  const Wrench press = force_through(hole.mouth, -spec.preload_nominal * hole.axis);
  return told_at(
      spec.place, "[[bolt]] '" + spec.name + "' head_seat of hole " + std::to_string(hole.id),
      [&] { return spread_wrench(mesh, seats, press, under_head(hole, spec.head_diameter)); });
}

std::vector<Hole> require_holes(const BoltSpec& spec, const ChosenFaces& chosen) {
  if (!chosen.holes.empty()) return chosen.holes;
  throw std::invalid_argument(at(spec.place) + "[[bolt]] '" + spec.name +
                              "' thread: " + spec.thread.text +
                              " chooses no holes; choose the threaded holes by their diameter");
}

}  // namespace

ScrewGroup assemble_screws(const BoltSpec& spec, const std::optional<Eigen::Vector3d>& lid_normal,
                           const Geometry& geometry, const Features& features,
                           const TetrahedronMesh& mesh) {
  ScrewGroup group;
  group.name = spec.name;
  group.holes = require_holes(spec, choose_faces(geometry, features, spec.thread));
  group.preload_nominal_N = spec.preload_nominal;
  group.least = spec.preload_min / spec.preload_nominal;
  group.greatest = spec.preload_max / spec.preload_nominal;
  group.preload.name = spec.name;
  group.preload.nodal_forces = Eigen::VectorXd::Zero(mesh.unknowns());
  std::vector<FaceId> seats;
  if (spec.head_seat && lid_normal) {
    throw std::invalid_argument(
        at(spec.place) + "[[bolt]] '" + spec.name +
        "' head_seat: a gasket is pressed by this group, so the heads sit on a lid that is not "
        "modelled; leave out head_seat or the gasket");
  }
  if (spec.head_seat) seats = choose_faces(geometry, features, *spec.head_seat).faces;
  for (auto& hole : group.holes) {
    if (lid_normal) turn_to_head(hole, *lid_normal, spec);
    if (!seats.empty()) turn_to_head(hole, mean_normal(seats, geometry), spec);
    const Wrench pull = force_through(hole.mouth, spec.preload_nominal * hole.axis);
    group.pull += pull;
    group.preload.nodal_forces += spread_wrench(mesh, hole.wall, pull);
    if (!seats.empty()) group.preload.nodal_forces += head_forces(spec, hole, seats, mesh);
    group.threads.insert(group.threads.end(), hole.wall.begin(), hole.wall.end());
  }
  return group;
}

Eigen::Vector3d gasket_normal(const GasketSpec& spec, const std::vector<FaceId>& faces,
                              const Geometry& geometry) {
  const Eigen::Vector3d normal = mean_normal(faces, geometry);
  for (const FaceId face : faces) {
    const auto& cad = geometry.face(face);
    if (cad.kind == SurfaceKind::plane && cad.vector_area.normalized().dot(normal) >= alike) {
      continue;
    }
    throw std::invalid_argument(at(spec.place) + "[[gasket]] '" + spec.name + "' faces: face " +
                                std::to_string(number(face)) +
                                " is not flat or looks another way than the others; choose the "
                                "plane faces that the gasket lies on");
  }
  return normal;
}

GasketJoint assemble_gasket(const GasketSpec& spec, ScrewGroup& screws,
                            const AssembledPressure& pressure, const Geometry& geometry,
                            const Features& features, const TetrahedronMesh& mesh) {
  const auto faces = choose_faces(geometry, features, spec.faces).faces;
  GasketJoint joint;
  joint.name = spec.name;
  joint.bolts = spec.bolts;
  joint.pressure = spec.pressure;
  joint.normal = gasket_normal(spec, faces, geometry);
  Wrench fluid;
  bool closes_an_opening = false;
  for (const auto& thrust : pressure.thrusts) {
    if (thrust.carried_by != spec.name) continue;
    fluid += thrust.wrench;
    closes_an_opening = true;
  }
  if (!closes_an_opening) {
    throw std::invalid_argument(
        at(spec.place) + "[[gasket]] '" + spec.name + "': no opening of pressure '" +
        spec.pressure +
        "' ends at its faces; choose the pressure's faces by the wetted surface with the seal line "
        "as a stop, or name the gasket in that pressure's carried_by");
  }
  joint.closing_N = screws.pull.force.dot(joint.normal);
  joint.opening_N = fluid.force.dot(joint.normal);
  told_at(spec.place, "[[gasket]] '" + spec.name + "'", [&] {
    screws.preload.nodal_forces += spread_wrench(mesh, faces, -screws.pull);
    joint.relief.nodal_forces = spread_wrench(mesh, faces, fluid);
    joint.share.nodal_forces = spread_wrench(mesh, screws.threads, fluid);
  });
  joint.relief.name = spec.name + ": screws take none of the pressure";
  joint.share.name = spec.name + ": screws take all of the pressure";
  for (auto* load : {&joint.relief, &joint.share}) {
    load->resultant = resultant(mesh, load->nodal_forces);
  }
  return joint;
}

}  // namespace crossgrain
