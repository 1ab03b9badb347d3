// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/iteration/with_springs.h"

#include <algorithm>

#include "solver/kernels/kernels.h"

namespace crossgrain {
namespace {

using Spring = StiffnessAdditions::Spring;

bool same(const std::vector<Spring::Share>& a, const std::vector<Spring::Share>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
    return x.node == y.node && x.direction == y.direction;
  });
}

double stretch(const std::vector<Spring::Share>& shares, const NodeVectors<double>& u, int column) {
  double sum = 0.0;
  for (const auto& [node, direction] : shares) sum += direction.dot(u.at(node, column).head<3>());
  return sum;
}

/// What of a spring pulls in free directions: nodes of both its ends come once, with their sum.
std::vector<Spring::Share> within(const FreeDirections& free,
                                  const std::vector<Spring::Share>& shares, Eigen::Index nodes) {
  NodeVectors<double> pulled(nodes, 1);
  for (const auto& [node, direction] : shares) pulled.at(node, 0).head<3>() += direction;
  free.project(pulled);
  std::vector<Spring::Share> result;
  for (const auto& share : shares)
    result.push_back({share.node, pulled.at(share.node, 0).head<3>()});
  std::ranges::sort(result, {}, &Spring::Share::node);
  const auto one_node = [](const auto& a, const auto& b) { return a.node == b.node; };
  result.erase(std::unique(result.begin(), result.end(), one_node), result.end());
  return result;
}

}  // namespace

WithSprings::WithSprings(const Preconditioner& inner, const FreeDirections& free,
                         const std::vector<Spring>& springs, Eigen::Index nodes)
    : inner_(inner) {
  for (const Spring& spring : springs) {
    shares_.push_back(spring.shares);
    free_shares_.push_back(within(free, spring.shares, nodes));
  }
  const Eigen::Index count = std::ssize(springs);
  moved_.resize(3 * nodes, count);
  give_.resize(count, count);
  for (Eigen::Index first = 0; first < count; first += most_columns) {
    const int columns = static_cast<int>(std::min<Eigen::Index>(most_columns, count - first));
    NodeVectors<double> pulled(nodes, columns), moved(nodes, columns);
    for (int c = 0; c < columns; ++c)
      for (const auto& [node, direction] : free_shares_[first + c])
        pulled.at(node, c).head<3>() = direction;
    inner.apply(pulled, moved);
    for (int c = 0; c < columns; ++c) {
      for (Eigen::Index i = 0; i < count; ++i)
        give_(i, first + c) = stretch(free_shares_[i], moved, c);
      for (Eigen::Index node = 0; node < nodes; ++node)
        moved_.col(first + c).segment<3>(3 * node) = moved.at(node, c).head<3>().cast<float>();
    }
  }
  // Symmetric but for the inner one's round-off.
  give_ = 0.5 * (give_ + give_.transpose()).eval();
  set_stiffness(springs);
}

void WithSprings::set_stiffness(const std::vector<Spring>& springs) {
  if (!std::equal(springs.begin(), springs.end(), shares_.begin(), shares_.end(),
                  [](const Spring& a, const Shares& b) { return same(a.shares, b); }))
    return;
  active_.clear();
  for (std::size_t i = 0; i < springs.size(); ++i)
    if (springs[i].stiffness > 0.0) active_.push_back(static_cast<int>(i));
  Eigen::MatrixXd sum = give_(active_, active_);
  for (std::size_t k = 0; k < active_.size(); ++k)
    sum(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(k)) +=
        1.0 / springs[active_[k]].stiffness;
  factor_.compute(sum);
  // An inner one that is not positive definite is for the iteration to find out.
  if (factor_.info() != Eigen::Success) active_.clear();
}

void WithSprings::apply(const NodeVectors<double>& r, NodeVectors<double>& z) const {
  inner_.apply(r, z);
  if (active_.empty()) return;
  Eigen::MatrixXd stretched(std::ssize(active_), r.columns());
  for (int c = 0; c < r.columns(); ++c)
    for (std::size_t k = 0; k < active_.size(); ++k)
      stretched(static_cast<Eigen::Index>(k), c) = stretch(free_shares_[active_[k]], z, c);
  Eigen::MatrixXf forces = Eigen::MatrixXf::Zero(moved_.cols(), r.columns());
  forces(active_, Eigen::all) = factor_.solve(stretched).cast<float>();
  const Eigen::MatrixXf back = moved_ * forces;
  for (Eigen::Index node = 0; node < z.nodes(); ++node)
    for (int c = 0; c < z.columns(); ++c)
      z.at(node, c).head<3>() -= back.col(c).segment<3>(3 * node).cast<double>();
}

}  // namespace crossgrain
