// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <numbers>

#include "solver/elements/material_field.h"
#include "solver/loads/loads.h"
#include "solver/supports/supports.h"
#include "tests/solver/example_materials.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::testing {

/// A quarter of a pipe, 6 mm of wall at 20 mm radius, of elements about as long as thick, as a
/// mesher makes them.
inline TetrahedronMesh quarter_pipe(int across) {
  return block_mesh({5 * across, across, 5 * across}, [](const Eigen::Vector3d& u) {
    const double angle = std::numbers::pi / 2.0 * u.x(), radius = 20.0 + 6.0 * u.y();
    return Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle), 32.0 * u.z());
  });
}

/// Short-carbon nylon, of the order of the data sheets: five constants about the build axis.
inline SolidMaterial printed_nylon() {
  SolidMaterial nylon = plain_solid();
  nylon.elastic = {8000, 8000, 3500, 0.35, 0.39, 0.39, 1300, 1300, 8000 / 2.7};
  return nylon;
}

struct Pipe {
  TetrahedronMesh mesh;
  std::vector<NodeConstraint> held = constraints_of(
      mesh, {{"end", {zeta_low}, Hold::all}, {"cut", {xi_low}, Hold::direction, {0, 1, 0}}});
  Eigen::VectorXd load =
      pressure_load(mesh, {eta_low}, [](const Eigen::Vector3d& at) { return 0.5 + 0.01 * at.z(); });

  explicit Pipe(int across) : mesh(quarter_pipe(across)) {}

  MaterialField field(const SolidMaterial& material, const Eigen::Vector3d& build) const {
    return uniform_field(mesh, {material}, {frame_along(build)});
  }
};

}  // namespace crossgrain::testing
