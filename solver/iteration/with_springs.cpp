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

}  // namespace

WithSprings::WithSprings(const Preconditioner& inner, const FreeDirections& free,
                         const std::vector<Spring>& springs, Eigen::Index nodes)
    : inner_(inner) {
  for (const Spring& spring : springs) shares_.push_back(spring.shares);
  for (std::size_t first = 0; first < springs.size(); first += most_columns) {
    const int columns =
        static_cast<int>(std::min<std::size_t>(most_columns, springs.size() - first));
    NodeVectors<double> pulled(nodes, columns), moved(nodes, columns);
    for (int c = 0; c < columns; ++c)
      for (const auto& [node, direction] : shares_[first + c])
        pulled.at(node, c).head<3>() += direction;
    free.project(pulled);
    inner.apply(pulled, moved);
    for (int c = 0; c < columns; ++c) {
      NodeVectors<double> own(nodes, 1);
      for (Eigen::Index node = 0; node < nodes; ++node) own.at(node, 0) = moved.at(node, c);
      moved_.push_back(std::move(own));
      Shares within;
      for (const auto& share : shares_[first + c])
        within.push_back({share.node, pulled.at(share.node, c).head<3>()});
      // Nodes of both ends may come twice; what is pulled there is their sum.
      std::ranges::sort(within, {}, &Spring::Share::node);
      const auto one_node = [](const auto& a, const auto& b) { return a.node == b.node; };
      within.erase(std::unique(within.begin(), within.end(), one_node), within.end());
      free_shares_.push_back(std::move(within));
    }
  }
  const auto count = std::ssize(springs);
  give_.resize(count, count);
  for (Eigen::Index i = 0; i < count; ++i)
    for (Eigen::Index j = 0; j < count; ++j) give_(i, j) = stretch(free_shares_[i], moved_[j], 0);
  // Symmetric but for the inner one's round-off.
  give_ = 0.5 * (give_ + give_.transpose()).eval();
  set_stiffness(springs);
}

bool WithSprings::set_stiffness(const std::vector<Spring>& springs) {
  if (!std::equal(springs.begin(), springs.end(), shares_.begin(), shares_.end(),
                  [](const Spring& a, const Shares& b) { return same(a.shares, b); }))
    return false;
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
  return true;
}

void WithSprings::apply(const NodeVectors<double>& r, NodeVectors<double>& z) const {
  inner_.apply(r, z);
  if (active_.empty()) return;
  for (int c = 0; c < r.columns(); ++c) {
    Eigen::VectorXd stretched(std::ssize(active_));
    for (std::size_t k = 0; k < active_.size(); ++k)
      stretched[static_cast<Eigen::Index>(k)] = stretch(free_shares_[active_[k]], z, c);
    const Eigen::VectorXd force = factor_.solve(stretched);
    for (std::size_t k = 0; k < active_.size(); ++k) {
      const auto& moved = moved_[active_[k]];
      for (Eigen::Index node = 0; node < z.nodes(); ++node)
        z.at(node, c) -= force[static_cast<Eigen::Index>(k)] * moved.at(node, 0);
    }
  }
}

}  // namespace crossgrain
