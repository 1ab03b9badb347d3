// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/pressure_loads.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "cases/case_file/case_place.h"
#include "cases/face_choice/mesh_loops.h"
#include "mesh/geometry/geometry_words.h"
#include "solver/elements/face_triangles.h"

namespace crossgrain {
namespace {

constexpr double standard_gravity = 9806.65;  ///< [mm/s^2], ISO 80000-3

/// What closes an opening if the case does not say: the gasket whose faces on either body its rim
/// borders, or the contact, beyond which another body takes the fluid's push for itself.
std::string closing_joint(const Opening& opening, const PressureLoad& spec,
                          const CaseFile& case_file, const Geometry& geometry,
                          const Features& features) {
  const auto borders = [&](const FaceChoice& choice) {
    const auto faces = choose_faces(geometry, features, choice).faces;
    return std::ranges::find(faces, opening.beyond) != faces.end();
  };
  for (const auto& gasket : case_file.gaskets) {
    if (gasket.pressure != spec.name) continue;
    if (borders(gasket.faces) || (gasket.between && borders(gasket.between->mate)))
      return gasket.name;
  }
  for (const auto& contact : case_file.contacts)
    if (borders(contact.faces) || borders(contact.mate)) return contact.name;
  return "plug";
}

std::string carrier_of(const Opening& opening, const PressureLoad& spec, const CaseFile& case_file,
                       const Geometry& geometry, const Features& features) {
  const auto said = spec.carried_by.find(opening.name);
  if (said != spec.carried_by.end()) return said->second;
  return closing_joint(opening, spec, case_file, geometry, features);
}

/// Force and moment of a pressure on the cap of every opening. The mesh's own loops make the caps
/// and the wetted faces balance to rounding; where they cannot be told apart the CAD's areas serve.
std::vector<Wrench> thrusts_of(const WettedSurface& wetted, const TetrahedronMesh& mesh,
                               const ScalarOfPosition& pressure) {
  std::vector<Wrench> thrusts;
  auto loops = boundary_loops(mesh, wetted.faces);
  const bool told_apart = loops.size() == wetted.openings.size();
  for (const auto& opening : wetted.openings) {
    const double p = pressure(opening.centre);
    if (!told_apart) {
      thrusts.push_back(force_through(opening.centre, p * opening.vector_area));
      continue;
    }
    const auto loop = std::ranges::min_element(loops, {}, [&](const MeshLoop& candidate) {
      const double area = opening.vector_area.norm();
      return (candidate.middle - opening.centre).norm() / std::sqrt(area) +
             (candidate.vector_area - opening.vector_area).norm() / area;
    });
    thrusts.push_back({p * loop->vector_area, p * loop->moment_area});
    loops.erase(loop);
  }
  return thrusts;
}

/// Wetted faces that meet the opening's rim: the bore that a plug sits in.
std::vector<FaceId> bore_wall(const Opening& opening, const WettedSurface& wetted,
                              const Geometry& geometry) {
  std::set<FaceId> wall;
  for (const EdgeId edge : opening.edges) {
    for (const FaceId face : geometry.edge(edge).faces) {
      if (std::ranges::find(wetted.faces, face) != wetted.faces.end()) wall.insert(face);
    }
  }
  return {wall.begin(), wall.end()};
}

/// Put on the part what plugs and named supports hand on to it.
void add_carried_thrust(AssembledPressure& assembled, const FluidThrust& thrust,
                        const WettedSurface& wetted, const CaseFile& case_file,
                        const Geometry& geometry, const Features& features,
                        const TetrahedronMesh& mesh) {
  if (thrust.carried_by == "plug") {
    assembled.load.nodal_forces +=
        spread_wrench(mesh, bore_wall(thrust.opening, wetted, geometry), thrust.wrench);
    return;
  }
  const auto support = std::ranges::find(case_file.supports, thrust.carried_by, &SupportSpec::name);
  if (support == case_file.supports.end()) return;
  const auto faces = choose_faces(geometry, features, support->faces).faces;
  assembled.load.nodal_forces += spread_wrench(mesh, faces, thrust.wrench);
}

void note_open_pressure(AssembledPressure& assembled, const PressureLoad& spec) {
  const auto& force = assembled.load.resultant.force;
  assembled.notes.push_back(
      "pressure '" + spec.name + "' acts on the chosen faces alone and pushes the part with " +
      words(force) +
      " N; what closes them is not in this model. Choose faces by the wetted surface to have the "
      "openings listed.");
}

}  // namespace

ScalarOfPosition pressure_field(const PressureLoad& spec) {
  if (!spec.head) return [value = spec.value](const Eigen::Vector3d&) { return value; };
  return [value = spec.value, head = *spec.head](const Eigen::Vector3d& position) {
    const double depth = head.free_surface - head.up.dot(position);
    return value + head.density * standard_gravity * std::max(0.0, depth);
  };
}

double greatest_pressure(const PressureLoad& spec, const std::vector<FaceId>& faces,
                         const TetrahedronMesh& mesh) {
  const ScalarOfPosition pressure = pressure_field(spec);
  double greatest = -std::numeric_limits<double>::infinity();
  for (const int t : triangles_on(mesh, faces, spec.name.c_str()))
    for (const int node : mesh.triangles.col(t))
      greatest = std::max(greatest, pressure(mesh.nodes.col(node)));
  return greatest;
}

AssembledPressure assemble_pressure(const PressureLoad& spec, const CaseFile& case_file,
                                    const Geometry& geometry, const Features& features,
                                    const TetrahedronMesh& mesh) {
  AssembledPressure assembled;
  const auto chosen = choose_faces(geometry, features, spec.faces);
  const auto pressure = pressure_field(spec);
  auto& load = assembled.load;
  load.name = spec.name;
  load.scales = spec.scales;
  load.nodal_forces = pressure_load(mesh, chosen.faces, pressure);
  assembled.value_MPa =
      spec.value != 0.0 ? spec.value : greatest_pressure(spec, chosen.faces, mesh);
  if (chosen.wetted) {
    const auto wrenches = thrusts_of(*chosen.wetted, mesh, pressure);
    for (std::size_t i = 0; i < wrenches.size(); ++i) {
      const auto& opening = chosen.wetted->openings[i];
      assembled.thrusts.push_back(
          {opening, wrenches[i], carrier_of(opening, spec, case_file, geometry, features)});
      add_carried_thrust(assembled, assembled.thrusts.back(), *chosen.wetted, case_file, geometry,
                         features, mesh);
    }
  }
  load.resultant = resultant(mesh, load.nodal_forces);
  const double size = load.nodal_forces.cwiseAbs().sum();
  if (!chosen.wetted && load.resultant.force.norm() > 1e-6 * size) {
    note_open_pressure(assembled, spec);
  }
  return assembled;
}

}  // namespace crossgrain
