// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/inertia_balance.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <sstream>
#include <stdexcept>

#include "solver/elements/element_at_points.h"

namespace crossgrain {
namespace {

constexpr double largest_unbalanced_fraction = 1e-3;

/// "(1, 0, 2.5)"; components that are round-off beside `scale` read 0.
std::string words_for(const Eigen::Vector3d& vector, double scale) {
  const Eigen::IOFormat row(6, Eigen::DontAlignCols, ", ", ", ", "", "", "(", ")");
  std::ostringstream words;
  words << (vector.cwiseAbs().array() < 1e-9 * scale).select(0.0, vector).transpose().format(row);
  return words.str();
}

[[noreturn]] void refuse(const Resultant& resultant, const RigidGroup& group,
                         const std::string& name, double size, double fraction) {
  std::ostringstream message;
  message << name << " is not balanced and nothing holds the part against it: resultant force "
          << words_for(resultant.force, size) << " N, moment "
          << words_for(resultant.moment, size * group.length) << " N mm about "
          << words_for(group.centre, group.length) << " mm; its unbalanced part is "
          << 100.0 * fraction
          << " % of the load, 0.1 % can be left to inertia. Add a support, or the missing load";
  throw std::invalid_argument(message.str());
}

Eigen::VectorXd gathered(const std::vector<int>& nodes, const Eigen::VectorXd& full) {
  Eigen::VectorXd part(3 * nodes.size());
  for (std::size_t i = 0; i < nodes.size(); ++i)
    part.segment<3>(3 * i) = full.segment<3>(3 * Eigen::Index{nodes[i]});
  return part;
}

void add_scattered(const std::vector<int>& nodes, const Eigen::VectorXd& part,
                   Eigen::Ref<Eigen::VectorXd> full) {
  for (std::size_t i = 0; i < nodes.size(); ++i)
    full.segment<3>(3 * Eigen::Index{nodes[i]}) += part.segment<3>(3 * i);
}

}  // namespace

InertiaBalance::InertiaBalance(const TetrahedronMesh& mesh, const std::vector<int>& group_of_node,
                               const std::vector<RigidGroup>& groups)
    : mesh_(mesh) {
  std::vector<std::vector<int>> nodes(groups.size());
  for (int i = 0; i < mesh.node_count(); ++i)
    if (group_of_node[i] >= 0) nodes[group_of_node[i]].push_back(i);
  for (const auto& group : groups) {
    if (group.free.cols() == 0) continue;
    FreeGroup free{&group, nodes[group.group], {}, {}};
    free.motions.resize(3 * free.nodes.size(), group.free.cols());
    for (std::size_t i = 0; i < free.nodes.size(); ++i)
      free.motions.middleRows<3>(3 * i) =
          group.motion_at(mesh.nodes.col(free.nodes[i])) * group.free;
    groups_.push_back(std::move(free));
  }
}

void InertiaBalance::set_material(const MaterialField& field) {
  if (groups_.empty()) return;
  for (auto& group : groups_) {
    group.inertia.resize(group.motions.rows(), group.motions.cols());
    for (Eigen::Index k = 0; k < group.motions.cols(); ++k) {
      Eigen::VectorXd motion = Eigen::VectorXd::Zero(mesh_.unknowns());
      add_scattered(group.nodes, group.motions.col(k), motion);
      group.inertia.col(k) = gathered(group.nodes, mass_times(mesh_, field, motion));
    }
  }
}

InertiaBalance::Imbalance InertiaBalance::imbalance(const FreeGroup& group,
                                                    const Eigen::VectorXd& load) const {
  const Eigen::VectorXd forces = gathered(group.nodes, load);
  const double size = forces.reshaped(3, group.nodes.size()).colwise().norm().sum();
  const Eigen::VectorXd along_motions = group.motions.transpose() * forces;
  return {along_motions, size, size == 0.0 ? 0.0 : along_motions.norm() / size};
}

double InertiaBalance::balance(Eigen::Ref<Eigen::VectorXd> load) const {
  double largest = 0.0;
  for (const auto& group : groups_) {
    const Imbalance rest = imbalance(group, load);
    if (rest.size == 0.0) continue;
    const Eigen::MatrixXd mass = group.motions.transpose() * group.inertia;
    add_scattered(group.nodes, -group.inertia * mass.llt().solve(rest.along_motions), load);
    largest = std::max(largest, rest.fraction);
  }
  return largest;
}

double InertiaBalance::require_balanced(const Eigen::VectorXd& load,
                                        const std::string& name) const {
  double largest = 0.0;
  for (const auto& group : groups_) {
    const Imbalance rest = imbalance(group, load);
    if (!(rest.fraction <= largest_unbalanced_fraction)) {
      Eigen::VectorXd own = Eigen::VectorXd::Zero(load.size());
      add_scattered(group.nodes, gathered(group.nodes, load), own);
      refuse(resultant(mesh_, own, group.rigid->centre), *group.rigid, name, rest.size,
             rest.fraction);
    }
    largest = std::max(largest, rest.fraction);
  }
  return largest;
}

void InertiaBalance::remove_rigid_motion(Eigen::Ref<Eigen::VectorXd> displacement) const {
  for (const auto& group : groups_) {
    const Eigen::VectorXd own = gathered(group.nodes, displacement);
    const Eigen::MatrixXd mass = group.motions.transpose() * group.inertia;
    const Eigen::VectorXd amount = mass.llt().solve(group.inertia.transpose() * own);
    add_scattered(group.nodes, -group.motions * amount, displacement);
  }
}

}  // namespace crossgrain
