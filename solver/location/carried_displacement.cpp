// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/location/carried_displacement.h"

#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/elements/parallel.h"
#include "solver/elements/shape_functions.h"
#include "solver/location/point_location.h"

namespace crossgrain {
namespace {

void require_fits(const TetrahedronMesh& mesh, const Eigen::MatrixXd& displacement) {
  if (displacement.rows() != mesh.unknowns())
    throw std::invalid_argument("a displacement of " + std::to_string(displacement.rows()) +
                                " unknowns on a mesh of " + std::to_string(mesh.unknowns()));
  if (!displacement.allFinite())
    throw std::invalid_argument("a displacement to start from is not finite");
}

/// Of each node, one of those in whose elements it is.
std::vector<BodyId> body_of_node(const TetrahedronMesh& mesh) {
  std::vector<BodyId> bodies(static_cast<std::size_t>(mesh.node_count()));
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    for (const int node : mesh.tetrahedra.col(t))
      bodies[static_cast<std::size_t>(node)] =
          mesh.body_of_tetrahedron[static_cast<std::size_t>(t)];
  return bodies;
}

}  // namespace

Eigen::MatrixXd carried_displacement(const TetrahedronMesh& old_mesh,
                                     const Eigen::MatrixXd& displacement,
                                     const TetrahedronMesh& new_mesh, int threads) {
  require_fits(old_mesh, displacement);
  const PointLocator locator(old_mesh);
  const std::vector<BodyId> bodies = body_of_node(new_mesh);
  Eigen::MatrixXd carried = Eigen::MatrixXd::Zero(new_mesh.unknowns(), displacement.cols());
  in_parallel(new_mesh.node_count(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (Eigen::Index node = begin; node < end; ++node) {
      const auto place =
          locator.find(new_mesh.nodes.col(node), std::numeric_limits<double>::infinity(),
                       bodies[static_cast<std::size_t>(node)]);
      if (!place) continue;
      const TetrahedronShape shape = tetrahedron_shape(place->local);
      for (int a = 0; a < 10; ++a)
        carried.middleRows<3>(3 * node) +=
            shape[a] * displacement.middleRows<3>(
                           3 * Eigen::Index{old_mesh.tetrahedra(a, place->tetrahedron)});
    }
  });
  return carried;
}

}  // namespace crossgrain
