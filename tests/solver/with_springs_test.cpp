// SPDX-License-Identifier: GPL-3.0-or-later
// The formula of Sherman, Morrison and Woodbury against Eigen's dense inverse of the sum.
#include "solver/iteration/with_springs.h"

#include <Eigen/Dense>
#include <boost/test/unit_test.hpp>

#include "solver/kernels/kernels.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

using Spring = StiffnessAdditions::Spring;

constexpr Eigen::Index nodes = 12;
constexpr int held = 5;
// `moved_` is kept in single precision, 6e-8, whose error the springs, up to some 10 times as stiff
// as what they pull at, multiply.
constexpr double single = 1e-5;

/// A positive definite matrix that no supports or springs are in.
Eigen::MatrixXd stiffness() {
  const Eigen::MatrixXd half = Eigen::MatrixXd::Random(3 * nodes, 3 * nodes);
  return half * half.transpose() + 3.0 * Eigen::MatrixXd::Identity(3 * nodes, 3 * nodes);
}

/// Onto all directions but one at one node.
Eigen::MatrixXd projector() {
  Eigen::MatrixXd P = Eigen::MatrixXd::Identity(3 * nodes, 3 * nodes);
  const Eigen::Vector3d n = Eigen::Vector3d(1.0, 2.0, -2.0) / 3.0;
  P.block<3, 3>(3 * held, 3 * held) -= n * n.transpose();
  return P;
}

/// The inverse of P K P on what is free.
class DenseInverse : public Preconditioner {
 public:
  explicit DenseInverse(const Eigen::MatrixXd& matrix)
      : inverse_(matrix.completeOrthogonalDecomposition().pseudoInverse()) {}

  const Eigen::MatrixXd& inverse() const { return inverse_; }
  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override {
    for (int c = 0; c < r.columns(); ++c) {
      Eigen::VectorXd column(3 * nodes);
      for (Eigen::Index n = 0; n < nodes; ++n) column.segment<3>(3 * n) = r.at(n, c).head<3>();
      column = inverse_ * column;
      for (Eigen::Index n = 0; n < nodes; ++n) z.at(n, c).head<3>() = column.segment<3>(3 * n);
    }
  }

 private:
  Eigen::MatrixXd inverse_;
};

/// More than one block of columns; one of them pulls twice at one node, one at the held one.
std::vector<Spring> some_springs() {
  std::vector<Spring> springs;
  for (int i = 0; i < most_columns + 3; ++i) {
    Spring spring{{}, 5.0 + i};
    for (const int node : {i % 11, (3 * i + 1) % 11 + 1, (5 * i + 2) % 12})
      spring.shares.push_back({node, Eigen::Vector3d::Random()});
    springs.push_back(spring);
  }
  springs[1].shares[1].node = springs[1].shares[0].node;
  springs[2].shares[0].node = held;
  return springs;
}

Eigen::MatrixXd sum_of(const std::vector<Spring>& springs) {
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(3 * nodes, 3 * nodes);
  for (const Spring& spring : springs) {
    Eigen::VectorXd v = Eigen::VectorXd::Zero(3 * nodes);
    for (const auto& [node, direction] : spring.shares) v.segment<3>(3 * node) += direction;
    sum += spring.stiffness * v * v.transpose();
  }
  return sum;
}

struct Model {
  Eigen::MatrixXd K = stiffness();
  Eigen::MatrixXd P = projector();
  DenseInverse inner{P * K * P};
  FreeDirections free{nodes, {{held, P.block<3, 3>(3 * held, 3 * held)}}};

  /// Of the sum with springs.
  Eigen::MatrixXd expected(const std::vector<Spring>& springs) const {
    return DenseInverse(P * (K + sum_of(springs)) * P).inverse();
  }
  /// Column by column, as many at a time as there may be.
  Eigen::MatrixXd obtained(const WithSprings& with) const {
    Eigen::MatrixXd inverse(3 * nodes, 3 * nodes);
    for (Eigen::Index first = 0; first < 3 * nodes; first += most_columns) {
      const int columns = static_cast<int>(std::min<Eigen::Index>(most_columns, 3 * nodes - first));
      NodeVectors<double> unit(nodes, columns), moved(nodes, columns);
      for (int c = 0; c < columns; ++c)
        for (Eigen::Index n = 0; n < nodes; ++n)
          unit.at(n, c).head<3>() = P.col(first + c).segment<3>(3 * n);
      with.apply(unit, moved);
      for (int c = 0; c < columns; ++c)
        for (Eigen::Index n = 0; n < nodes; ++n)
          inverse.col(first + c).segment<3>(3 * n) = moved.at(n, c).head<3>();
    }
    return inverse;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(with_springs)

BOOST_AUTO_TEST_CASE(it_is_the_inverse_of_the_sum) {
  const Model model;
  const auto springs = some_springs();

  const WithSprings with(model.inner, model.free, springs, nodes);

  BOOST_TEST(near(model.obtained(with), model.expected(springs), single));
  // And not that of what it stands on.
  BOOST_TEST(!near(model.obtained(with), model.inner.inverse(), 0.1));
}

BOOST_AUTO_TEST_CASE(springs_change_and_vanish_and_come_back) {
  const Model model;
  auto springs = some_springs();
  springs[0].stiffness = 0.0;
  WithSprings with(model.inner, model.free, springs, nodes);
  BOOST_TEST(near(model.obtained(with), model.expected(springs), single));

  springs[0].stiffness = 9.0;
  springs[4].stiffness = 0.0;
  with.set_stiffness(springs);
  BOOST_TEST(near(model.obtained(with), model.expected(springs), single));

  for (Spring& spring : springs) spring.stiffness = 0.0;
  with.set_stiffness(springs);
  BOOST_TEST(near(model.obtained(with), model.inner.inverse(), 1e-14));
}

BOOST_AUTO_TEST_CASE(other_springs_are_not_taken) {
  const Model model;
  const auto springs = some_springs();
  WithSprings with(model.inner, model.free, springs, nodes);
  auto others = springs;
  others[3].shares[0].direction *= 2.0;

  with.set_stiffness(others);
  BOOST_TEST(near(model.obtained(with), model.expected(springs), single));
  with.set_stiffness({});
  BOOST_TEST(near(model.obtained(with), model.expected(springs), single));
}

BOOST_AUTO_TEST_SUITE_END()
