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
                    const RigidMotions& rigid, Eigen::Index free,
                    const Eigen::MatrixXd& displacements) {
  Eigen::Index count = 0;
  for (const NodeConstraint* hold : holds) count += hold->held.cols();
  SeenByHolds seen{Eigen::MatrixXd(count, free), Eigen::MatrixXd(count, displacements.cols())};
  Eigen::Index row = 0;
  for (const NodeConstraint* hold : holds) {
    const Eigen::Index held = hold->held.cols();
    const auto along = hold->held.transpose();
    seen.motions.middleRows(row, held) = along * rigid.free_at(mesh, hold->node);
    seen.displacements.middleRows(row, held) =
        along * displacements.middleRows<3>(3 * Eigen::Index{hold->node});
    row += held;
  }
  return seen;
}

}  // namespace

Eigen::MatrixXd brought_to_rest(Eigen::MatrixXd displacements, const TetrahedronMesh& mesh,
                                const RigidMotions& rigid,
                                const std::vector<NodeConstraint>& holds) {
  std::vector<std::vector<const NodeConstraint*>> holds_of_group(rigid.groups.size());
  for (const NodeConstraint& hold : holds)
    if (const int g = rigid.group_of(hold.node); g >= 0) holds_of_group[g].push_back(&hold);
  std::vector<Eigen::MatrixXd> amount_of_group(rigid.groups.size());  // free motions x n
  for (std::size_t g = 0; g < rigid.groups.size(); ++g) {
    const auto free = rigid.groups[g].free.cols();
    if (free == 0) continue;
    const SeenByHolds seen = seen_by(holds_of_group[g], mesh, rigid, free, displacements);
    amount_of_group[g] = -seen.motions.colPivHouseholderQr().solve(seen.displacements);
  }
  for (int node = 0; node < mesh.node_count(); ++node) {
    const int g = rigid.group_of(node);
    if (g < 0 || rigid.groups[g].free.cols() == 0) continue;
    displacements.middleRows<3>(3 * Eigen::Index{node}) +=
        rigid.free_at(mesh, node) * amount_of_group[g];
  }
  return displacements;
}

}  // namespace crossgrain
