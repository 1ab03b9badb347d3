// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/element_batch.h"

#include <algorithm>
#include <cassert>
#include <stdexcept>
#include <string>

#include "solver/elements/element_stiffness.h"

namespace crossgrain {

ElementBatch::ElementBatch(const TetrahedronMesh& mesh, const MaterialField& field,
                           const TetrahedronRule& rule)
    : mesh_(mesh),
      field_(field),
      rule_(rule),
      material_(field),
      element_(rule),
      local_gradients_(30, rule.size()),
      nodes_(batch, 30),
      elastic_(batch, 36),
      stiffness_(batch, pair_blocks),
      work_(batch, 30 * rule.size()) {
  for (Eigen::Index q = 0; q < rule.size(); ++q)
    local_gradients_.col(q) = tetrahedron_local_gradients(rule.points.col(q)).reshaped();
}

void ElementBatch::take(int tetrahedron) {
  assert(!full());
  tetrahedra_[count_] = tetrahedron;
  for (int a = 0; a < 10; ++a)
    for (int k = 0; k < 3; ++k)
      nodes_(count_, 3 * a + k) = mesh_.nodes(k, mesh_.tetrahedra(a, tetrahedron));
  if (field_.one_frame_per_element())
    elastic_.row(count_) = material_.stiffness(tetrahedron, 0).reshaped().transpose();
  ++count_;
}

void ElementBatch::integrate(ElementShape shape) {
  // Unused lanes repeat the first element.
  for (int lane = count_; lane < batch; ++lane) {
    nodes_.row(lane) = nodes_.row(0);
    elastic_.row(lane) = elastic_.row(0);
  }
  if (shape == ElementShape::straight) integrate_straight();
  if (shape == ElementShape::curved) integrate_curved();
  if (shape == ElementShape::point_by_point)
    for (int lane = 0; lane < count_; ++lane) integrate_points(lane);
}

void ElementBatch::integrate_straight() {
  double volume[batch];
  kernels().straight_stiffness(nodes_.data(), elastic_.data(), stiffness_.data(), volume);
  for (int lane = 0; lane < count_; ++lane)
    if (!(volume[lane] > 0.0)) refuse_inverted(lane);
}

void ElementBatch::integrate_curved() {
  double least_jacobian[batch];
  kernels().curved_stiffness(nodes_.data(), elastic_.data(), static_cast<int>(rule_.size()),
                             local_gradients_.data(), rule_.weights.data(), work_.data(),
                             stiffness_.data(), least_jacobian);
  for (int lane = 0; lane < count_; ++lane)
    if (!(least_jacobian[lane] > 0.0)) refuse_inverted(lane);
}

void ElementBatch::refuse_inverted(int lane) {
  element_.move_to(mesh_, tetrahedra_[lane]);  // throws, with the element's place
  throw std::invalid_argument("element " + std::to_string(tetrahedra_[lane]) +
                              " is flat to round-off; mesh again with another size");
}

void ElementBatch::integrate_points(int lane) {
  element_.move_to(mesh_, tetrahedra_[lane]);
  PairBlocks sum = PairBlocks::Zero();
  for (Eigen::Index q = 0; q < element_.size(); ++q) {
    PairBlocks products = PairBlocks::Zero();
    add_gradient_products(products, element_.gradients(q), element_.weight(q));
    sum.noalias() += contraction(material_.stiffness(tetrahedra_[lane], q)) * products;
  }
  stiffness_.row(lane) = sum.reshaped().transpose();
}

Eigen::Matrix3d ElementBatch::corner_block(int m, int n, int lane, ElementShape shape) const {
  if (shape == ElementShape::straight)  // a quadratic corner function meets another by this factor
    return block(pair_number(std::min(m, n), std::max(m, n)), lane) / (m == n ? 0.6 : -0.2);
  // A corner of the linear level moves its own node, and the middles of its edges by half.
  constexpr int moved[4][4] = {{0, 4, 6, 7}, {1, 4, 5, 8}, {2, 5, 6, 9}, {3, 7, 8, 9}};
  constexpr double share[4] = {1.0, 0.5, 0.5, 0.5};
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  for (int k = 0; k < 4; ++k)
    for (int l = 0; l < 4; ++l) {
      const int a = moved[m][k], b = moved[n][l];
      if (a <= b)
        sum += share[k] * share[l] * block(pair_number(a, b), lane);
      else
        sum += share[k] * share[l] * block(pair_number(b, a), lane).transpose();
    }
  return sum;
}

}  // namespace crossgrain
