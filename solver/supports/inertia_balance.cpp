// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/inertia_balance.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <set>
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

/// "the part", or "bodies 2, 3" of several.
std::string words_for_bodies(const TetrahedronMesh& mesh, const RigidMotions& rigid, int group) {
  if (rigid.bodies.size() == 1) return "the part";
  std::set<int> numbers;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    if (rigid.group_of(mesh.tetrahedra(0, t)) == group)
      numbers.insert(number(mesh.body_of_tetrahedron[t]));
  std::string words = numbers.size() == 1 ? "body " : "bodies ";
  for (const int body : numbers)
    words += (body == *numbers.begin() ? "" : ", ") + std::to_string(body);
  return words;
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

InertiaBalance::InertiaBalance(const TetrahedronMesh& mesh, const RigidMotions& rigid)
    : mesh_(mesh) {
  std::vector<std::vector<int>> nodes(rigid.groups.size());
  for (int i = 0; i < mesh.node_count(); ++i)
    if (const int g = rigid.group_of(i); g >= 0) nodes[g].push_back(i);
  for (int g = 0; g < static_cast<int>(nodes.size()); ++g) {
    const RigidGroup& group = rigid.groups[g];
    if (group.free.cols() == 0) continue;
    FreeGroup free{group.centre,        group.length, words_for_bodies(mesh, rigid, g),
                   std::move(nodes[g]), {},           {}};
    free.motions.resize(3 * free.nodes.size(), group.free.cols());
    for (std::size_t i = 0; i < free.nodes.size(); ++i)
      free.motions.middleRows<3>(3 * i) = rigid.free_at(mesh, free.nodes[i]);
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

void InertiaBalance::refuse(const FreeGroup& group, const Eigen::VectorXd& load,
                            const Imbalance& rest, const std::string& name) const {
  Eigen::VectorXd own = Eigen::VectorXd::Zero(load.size());
  add_scattered(group.nodes, gathered(group.nodes, load), own);
  const Resultant all = resultant(mesh_, own, group.centre);
  std::ostringstream message;
  message << name << " is not balanced and nothing holds " << group.bodies
          << " against it: resultant force " << words_for(all.force, rest.size) << " N, moment "
          << words_for(all.moment, rest.size * group.length) << " N mm about "
          << words_for(group.centre, group.length) << " mm; its unbalanced part is "
          << 100.0 * rest.fraction
          << " % of the load, 0.1 % can be left to inertia. Add a support, or the missing load";
  throw std::invalid_argument(message.str());
}

double InertiaBalance::require_balanced(const Eigen::VectorXd& load,
                                        const std::string& name) const {
  double largest = 0.0;
  for (const auto& group : groups_) {
    const Imbalance rest = imbalance(group, load);
    if (!(rest.fraction <= largest_unbalanced_fraction)) refuse(group, load, rest, name);
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
