// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/body_balance.h"

#include "mesh/tetrahedra/mesh_checks.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {
namespace {

constexpr double g_per_tonne = 1e6;

}  // namespace

std::vector<BodyBalance> balance_bodies(const Geometry& geometry, const TetrahedronMesh& mesh,
                                        const MaterialField& field,
                                        const std::vector<MaterialAtConditions>& materials) {
  std::vector<double> volumes(geometry.bodies.size(), 0.0);
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    volumes[index(mesh.body_of_tetrahedron[t])] += element_volume(mesh, t);
  std::vector<double> masses = body_masses(mesh, field);
  masses.resize(volumes.size(), 0.0);  // bodies behind the last one that is modelled

  std::vector<BodyBalance> balances;
  for (const Body& body : geometry.bodies) {
    if (!body.modelled) continue;
    const std::size_t i = index(body.id);
    balances.push_back({body.name, volumes[i], body.volume, g_per_tonne * masses[i],
                        g_per_tonne * materials[i].nominal.density * body.volume});
  }
  return balances;
}

}  // namespace crossgrain
