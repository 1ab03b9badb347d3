// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/brought_to_rest.h"

#include <Eigen/QR>

namespace crossgrain {
namespace {

/// What holds see of a group: how far each free motion moves along them, and the displacements.
struct SeenByHolds {
  Eigen::MatrixXd motions;        ///< held directions x free motions
  Eigen::MatrixXd displacements;  ///< held directions x n [mm]
};

SeenByHolds seen_by(const std::vector<const NodeConstraint*>& holds, const TetrahedronMesh& mesh,
                    const RigidGroup& group, const Eigen::MatrixXd& displacements) {
  Eigen::Index count = 0;
  for (const NodeConstraint* hold : holds) count += hold->held.cols();
  SeenByHolds seen{Eigen::MatrixXd(count, group.free.cols()),
                   Eigen::MatrixXd(count, displacements.cols())};
  Eigen::Index row = 0;
  for (const NodeConstraint* hold : holds) {
    const Eigen::Index held = hold->held.cols();
    const auto along = hold->held.transpose();
    seen.motions.middleRows(row, held) =
        along * group.motion_at(mesh.nodes.col(hold->node)) * group.free;
    seen.displacements.middleRows(row, held) =
        along * displacements.middleRows<3>(3 * Eigen::Index{hold->node});
    row += held;
  }
  return seen;
}

}  // namespace

Eigen::MatrixXd brought_to_rest(Eigen::MatrixXd displacements, const TetrahedronMesh& mesh,
                                const std::vector<int>& group_of_node,
                                const std::vector<RigidGroup>& groups,
                                const std::vector<NodeConstraint>& holds) {
  std::vector<std::vector<const NodeConstraint*>> holds_of_group(groups.size());
  for (const NodeConstraint& hold : holds)
    if (const int g = group_of_node[hold.node]; g >= 0) holds_of_group[g].push_back(&hold);
  std::vector<Eigen::MatrixXd> motion_of_group(groups.size());  // six numbers x n
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (groups[g].free.cols() == 0) continue;
    const SeenByHolds seen = seen_by(holds_of_group[g], mesh, groups[g], displacements);
    motion_of_group[g] =
        -groups[g].free * seen.motions.colPivHouseholderQr().solve(seen.displacements);
  }
  for (Eigen::Index node = 0; node < mesh.node_count(); ++node) {
    const int g = group_of_node[node];
    if (g < 0 || groups[g].free.cols() == 0) continue;
    displacements.middleRows<3>(3 * node) +=
        groups[g].motion_at(mesh.nodes.col(node)) * motion_of_group[g];
  }
  return displacements;
}

}  // namespace crossgrain
