// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/kernels/kernels.h"

#include <Eigen/LU>
#include <boost/test/unit_test.hpp>
#include <limits>
#include <utility>

#include "solver/elements/quadrature.h"
#include "solver/elements/shape_functions.h"
#include "solver/stress/element_stress.h"
#include "tests/support/near.h"

using namespace crossgrain;
using crossgrain::testing::near;

namespace {

/// A symmetric matrix of 3x3 blocks by rows of its upper half, and the same in full.
template <class Scalar>
struct SmallMatrix {
  std::vector<std::int64_t> row_start{0};
  std::vector<int> column;
  Eigen::Matrix<Scalar, Eigen::Dynamic, 1> blocks;
  Eigen::MatrixXd full;

  explicit SmallMatrix(int nodes) : full(Eigen::MatrixXd::Zero(3 * nodes, 3 * nodes)) {
    for (int i = 0; i < nodes; ++i) {
      for (int j = i; j < nodes; j += 1 + (i + j) % 3) column.push_back(j);
      row_start.push_back(std::ssize(column));
    }
    // Past the last block a kernel may read but must not use.
    blocks.setConstant(9 * std::ssize(column) + 16, std::numeric_limits<Scalar>::max() / 8);
    for (int i = 0; i < nodes; ++i)
      for (auto k = row_start[i]; k < row_start[i + 1]; ++k) {
        Eigen::Matrix3d block;
        for (int s = 0; s < 9; ++s) block.data()[s] = (3 * i + 5 * column[k] + 7 * s) % 11 - 5;
        if (column[k] == i) block = (block + block.transpose()).eval();
        Eigen::Map<Eigen::Matrix<Scalar, 3, 3>>(blocks.data() + 9 * k) = block.cast<Scalar>();
        full.block<3, 3>(3 * i, 3 * column[k]) = block;
        full.block<3, 3>(3 * column[k], 3 * i) = block.transpose();
      }
  }
};

/// Whole numbers: every order of summing gives the same.
template <class Scalar>
void check_block_rows(BlockRows<Scalar> rows, int columns) {
  constexpr int nodes = 9, begin = 2, end = 6;
  const SmallMatrix<Scalar> A(nodes);
  Eigen::Matrix<Scalar, 4, Eigen::Dynamic> x(4, nodes * columns), y, beyond;
  Eigen::MatrixXd plain(3 * nodes, columns), got(3 * nodes, columns);
  x.setZero();
  for (int i = 0; i < nodes; ++i)
    for (int c = 0; c < columns; ++c)
      for (int k = 0; k < 3; ++k)
        plain(3 * i + k, c) = x(k, i * columns + c) = static_cast<Scalar>((i + 2 * c + 4 * k) % 7);
  y.setZero(4, nodes * columns);
  beyond.setZero(4, (nodes - end) * columns);

  rows(A.row_start.data(), A.column.data(), A.blocks.data(), begin, end, x.data(), y.data(),
       beyond.data());

  // Rows begin..end of the upper half and, mirrored, what stands right of their diagonal.
  const Eigen::MatrixXd& full = A.full;
  Eigen::MatrixXd part = Eigen::MatrixXd::Zero(3 * nodes, 3 * nodes);
  for (int i = begin; i < end; ++i)
    for (int j = i; j < nodes; ++j) {
      part.block<3, 3>(3 * i, 3 * j) = full.block<3, 3>(3 * i, 3 * j);
      part.block<3, 3>(3 * j, 3 * i) = full.block<3, 3>(3 * j, 3 * i);
    }
  const Eigen::MatrixXd expected = part * plain;
  for (int i = 0; i < nodes; ++i)
    for (int c = 0; c < columns; ++c) {
      const Scalar* at =
          i < end ? y.col(i * columns + c).data() : beyond.col((i - end) * columns + c).data();
      for (int k = 0; k < 3; ++k) got(3 * i + k, c) = at[k];
      BOOST_TEST(at[3] == Scalar{0});
    }
  BOOST_TEST(near(got, expected, 0.0));
}

/// Columns of a factor against Eigen's own products and triangular solutions.
template <class Scalar>
void check_factor_columns(const FactorColumns<Scalar>& of, int vectors, int rows, int columns) {
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  // Rows below of no concern: nothing may touch them.
  const auto entry = [](Eigen::Index i, Eigen::Index j) {
    return static_cast<Scalar>((3 * i + 5 * j) % 11 - 5) / Scalar{16};
  };
  const Matrix A = Matrix::NullaryExpr(rows + 3, columns, entry);
  Matrix L = Matrix::NullaryExpr(columns + 2, columns, entry);
  L.diagonal().setConstant(Scalar{2});
  const Matrix wide = Matrix::NullaryExpr(columns + 1, vectors, entry),
               high = Matrix::NullaryExpr(rows + 1, vectors, entry);
  const auto x = wide.topRows(columns), y = high.topRows(rows);
  const auto lower = L.topRows(columns).template triangularView<Eigen::Lower>();
  const auto stored = A.topRows(rows);
  // Sums of up to 40 terms of the order of 1.
  const double round_off = 100.0 * static_cast<double>(std::numeric_limits<Scalar>::epsilon());
  const auto check = [&](const Matrix& start, const Matrix& expected, const auto& work) {
    Matrix got = start;
    work(got);
    const auto used = got.rows() - 1;
    BOOST_TEST(near(got.topRows(used).template cast<double>(), expected.template cast<double>(),
                    round_off));
    BOOST_TEST((got.row(used) == start.row(used)));
  };
  check(wide, lower.solve(x),
        [&](Matrix& got) { of.divide(L.data(), L.rows(), columns, got.data(), got.rows()); });
  check(wide, lower.transpose().solve(x), [&](Matrix& got) {
    of.divide_transposed(L.data(), L.rows(), columns, got.data(), got.rows());
  });
  // Both vectors of a product are a stride apart.
  Matrix both(rows + columns + 1, vectors);
  both << x, y, high.bottomRows(1);
  check(both, (Matrix(rows + columns, vectors) << x, y - stored * x).finished(), [&](Matrix& got) {
    of.subtract(A.data(), A.rows(), rows, columns, got.data(), got.data() + columns, got.rows());
  });
  check(both, (Matrix(rows + columns, vectors) << x - stored.transpose() * y, y).finished(),
        [&](Matrix& got) {
          of.subtract_transposed(A.data(), A.rows(), rows, columns, got.data() + columns,
                                 got.data(), got.rows());
        });
}

/// Eight tetrahedra, no two alike, and their mid-side nodes.
Eigen::Matrix<double, batch, 30> eight_tetrahedra(double bow) {
  Eigen::Matrix<double, batch, 30> nodes;
  for (int lane = 0; lane < batch; ++lane) {
    Eigen::Matrix<double, 3, 10> points;
    points.leftCols<4>() << 0.0, 2.0, 0.1, 0.3, 0.0, 0.2, 1.5, 0.1, 0.0, -0.1, 0.2, 1.1;
    points(0, 1) += 0.2 * lane;
    points(2, 3) += 0.1 * lane;
    for (int e = 0; e < 6; ++e)
      points.col(4 + e) =
          0.5 * (points.col(edges_of_tetrahedron[e][0]) + points.col(edges_of_tetrahedron[e][1])) +
          bow * Eigen::Vector3d(e == 1, e == 3, 0.5 * (e == 4));
    nodes.row(lane) = points.reshaped().transpose();
  }
  return nodes;
}

Eigen::Matrix<double, batch, 36> eight_stiffnesses() {
  Eigen::Matrix<double, batch, 36> C;
  for (int lane = 0; lane < batch; ++lane) {
    Eigen::Matrix<double, 6, 6> one;
    for (int i = 0; i < 6; ++i)
      for (int j = 0; j < 6; ++j) one(i, j) = 1.0 / (1 + i + j) + (i == j ? 3.0 + lane : 0.0);
    C.row(lane) = one.reshaped().transpose();
  }
  return C;
}

using Stiffnesses = Eigen::Matrix<double, batch, pair_blocks>;

Stiffnesses straight(const Kernels& kernels, const Eigen::Matrix<double, batch, 30>& nodes,
                     Eigen::Array<double, batch, 1>& volume) {
  Stiffnesses K;
  const auto C = eight_stiffnesses();
  kernels.straight_stiffness(nodes.data(), C.data(), K.data(), volume.data());
  return K;
}

Stiffnesses curved(const Kernels& kernels, const Eigen::Matrix<double, batch, 30>& nodes) {
  const auto& rule = stiffness_rule();
  Eigen::MatrixXd gradients(30, rule.size()), work(batch, 30 * rule.size());
  for (Eigen::Index q = 0; q < rule.size(); ++q)
    gradients.col(q) = tetrahedron_local_gradients(rule.points.col(q)).reshaped();
  Stiffnesses K;
  Eigen::Array<double, batch, 1> least;
  const auto C = eight_stiffnesses();
  kernels.curved_stiffness(nodes.data(), C.data(), static_cast<int>(rule.size()), gradients.data(),
                           rule.weights.data(), work.data(), K.data(), least.data());
  BOOST_TEST((least > 0.0).all());
  return K;
}

/// Each of the eight elements in a group of its own, the other lanes empty, against the product of
/// its stiffness.
void check_straight_product(const Kernels& kernels, int columns) {
  constexpr int nodes = 10 * batch, own_end = 47;
  const auto at_nodes = eight_tetrahedra(0.0);
  Eigen::Array<double, batch, 1> volume;
  const Stiffnesses K = straight(kernels, at_nodes, volume);
  Eigen::MatrixXi node(10 * group_size, batch);
  Eigen::MatrixXf gradients = Eigen::MatrixXf::Zero(9 * group_size, batch);
  const Eigen::MatrixXf C = eight_stiffnesses().cast<float>().transpose();
  Eigen::VectorXi material(batch);
  Eigen::MatrixXf x = Eigen::MatrixXf::Zero(4, nodes * columns), y = x;
  for (Eigen::Index i = 0; i < x.cols(); ++i)
    for (int k = 0; k < 3; ++k) x(k, i) = static_cast<float>((3 * i + 5 * k) % 11 - 5);
  Eigen::MatrixXd expected = Eigen::MatrixXd::Zero(4, nodes * columns);
  for (int e = 0; e < batch; ++e) {
    material[e] = e;
    for (int a = 0; a < 10; ++a)
      node.col(e).segment<group_size>(group_size * a).setConstant(10 * e + a);
    const Eigen::Matrix<double, 3, 4> p = at_nodes.row(e).head<12>().reshaped(3, 4);
    const Eigen::Matrix3d edges = p.rightCols<3>().colwise() - p.col(0);
    const Eigen::Matrix3d weighted = std::sqrt(volume[e] / 20.0) * edges.inverse().transpose();
    for (int s = 0; s < 9; ++s)
      gradients(group_size * s + 2 * e, e) = static_cast<float>(weighted.data()[s]);
    for (int a = 0, pair = 0; a < 10; ++a)
      for (int b = a; b < 10; ++b, ++pair)
        for (int c = 0; c < columns; ++c) {
          const Eigen::Matrix3d block = K.row(e).segment<9>(9 * pair).reshaped(3, 3);
          const auto at = [&](auto& vectors, int local) {
            return vectors.col((10 * e + local) * columns + c).template head<3>();
          };
          at(expected, a) += block * at(x, b).cast<double>();
          if (a != b) at(expected, b) += block.transpose() * at(x, a).cast<double>();
        }
  }
  Eigen::MatrixXf beyond = Eigen::MatrixXf::Zero(4, (nodes - own_end) * columns);

  kernels.straight_product[columns - 1]({node.data(), gradients.data(), material.data(), C.data()},
                                        0, batch, own_end, x.data(), y.data(), beyond.data());

  Eigen::MatrixXd got = y.cast<double>();
  BOOST_TEST(got.rightCols(beyond.cols()).isZero(0.0));
  got.rightCols(beyond.cols()) = beyond.cast<double>();
  // Some hundred terms in single precision.
  BOOST_TEST(near(got, expected, 2e-6));
}

}  // namespace

/// Moments of strain, contracted with the elastic constants, against the stiffness of bowed
/// elements on the same displacements; a strain that is the same everywhere, at their corners.
void check_strain_moments(const Kernels& kernels, int columns) {
  constexpr int place_of[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  const auto& rule = stiffness_rule();
  const auto points = rule.size();
  const auto nodes = eight_tetrahedra(0.05);
  const auto C = eight_stiffnesses();
  const Stiffnesses K = curved(kernels, nodes);
  Eigen::MatrixXd gradients(30, points), work(batch, 37 * points);
  for (Eigen::Index q = 0; q < points; ++q)
    gradients.col(q) = tetrahedron_local_gradients(rule.points.col(q)).reshaped();
  const Eigen::MatrixXd fit = fit_at_corners(rule).transpose();
  // The last displacement is linear in position: its slopes are those of a homogeneous strain.
  const Eigen::Matrix3d slope{{0.3, -0.1, 0.7}, {0.2, 0.5, 0.0}, {-0.4, 0.6, -0.2}};
  Eigen::MatrixXd u(batch, 30 * columns), moments(batch, 180 * columns),
      corners(batch, 24 * columns);
  for (Eigen::Index i = 0; i < u.size(); ++i)
    u.data()[i] = static_cast<double>((7 * i) % 23) - 11.0;
  for (int lane = 0; lane < batch; ++lane)
    u.row(lane).tail<30>() = (slope * nodes.row(lane).reshaped(3, 10)).reshaped().transpose();
  Eigen::Array<double, batch, 1> volume, least;

  kernels.strain_moments(
      {static_cast<int>(points), gradients.data(), rule.weights.data(), fit.data()}, nodes.data(),
      columns, u.data(), work.data(), moments.data(), corners.data(), volume.data(), least.data());

  BOOST_TEST((least > 0.0).all());
  for (int lane = 0; lane < batch; ++lane)
    for (int c = 0; c < columns; ++c) {
      Eigen::Matrix<double, 3, 10> expected = Eigen::Matrix<double, 3, 10>::Zero(), got = expected;
      for (int a = 0, pair = 0; a < 10; ++a)
        for (int b = a; b < 10; ++b, ++pair) {
          const Eigen::Matrix3d block = K.row(lane).segment<9>(9 * pair).reshaped(3, 3);
          expected.col(a) += block * u.row(lane).segment<3>(30 * c + 3 * b).transpose();
          if (a != b)
            expected.col(b) +=
                block.transpose() * u.row(lane).segment<3>(30 * c + 3 * a).transpose();
        }
      const Eigen::Matrix<double, 6, 6> elastic = C.row(lane).reshaped(6, 6);
      for (int a = 0; a < 10; ++a)
        for (int k = 0; k < 3; ++k) {
          const Eigen::Matrix<double, 6, 1> moment =
              moments.row(lane).segment<6>(180 * c + 18 * a + 6 * k).transpose();
          for (int i = 0; i < 3; ++i) got(i, a) += elastic.row(place_of[i][k]).dot(moment);
        }
      BOOST_TEST(near(got, expected, 1e-13));
    }
  Eigen::Matrix<double, 6, 1> strain;
  strain << slope(0, 0), slope(1, 1), slope(2, 2), slope(1, 2) + slope(2, 1),
      slope(0, 2) + slope(2, 0), slope(0, 1) + slope(1, 0);
  for (int lane = 0; lane < batch; ++lane)
    BOOST_TEST(near(corners.row(lane).tail<24>().transpose(), strain.replicate<4, 1>(), 1e-12));
}

BOOST_AUTO_TEST_SUITE(inner_loops)

BOOST_AUTO_TEST_CASE(rows_of_blocks_multiply_as_the_full_matrix_on_every_generation) {
  for (const Kernels* kernels : runnable_kernels()) {
    BOOST_TEST_CONTEXT(kernels->name)
    for (int columns = 1; columns <= most_columns; ++columns) {
      check_block_rows(kernels->block_rows_single[columns - 1], columns);
      check_block_rows(kernels->block_rows_double[columns - 1], columns);
    }
  }
}

BOOST_AUTO_TEST_CASE(columns_of_a_factor_solve_and_multiply_on_every_generation) {
  for (const Kernels* kernels : runnable_kernels()) {
    BOOST_TEST_CONTEXT(kernels->name)
    for (int vectors = 1; vectors <= most_columns; ++vectors)
      for (const auto& [rows, columns] : {std::pair{1, 1}, {5, 3}, {16, 6}, {39, 21}, {3, 40}}) {
        check_factor_columns(kernels->factor_columns_single[vectors - 1], vectors, rows, columns);
        check_factor_columns(kernels->factor_columns_double[vectors - 1], vectors, rows, columns);
      }
  }
}

BOOST_AUTO_TEST_CASE(straight_elements_side_by_side_answer_as_their_stiffness_on_every_generation) {
  for (const Kernels* kernels : runnable_kernels())
    for (int columns = 1; columns <= most_columns; ++columns)
      BOOST_TEST_CONTEXT(kernels->name) check_straight_product(*kernels, columns);
}

BOOST_AUTO_TEST_CASE(moments_of_strain_answer_as_the_stiffness_on_every_generation) {
  for (const Kernels* kernels : runnable_kernels())
    for (int columns = 1; columns <= 3; ++columns)
      BOOST_TEST_CONTEXT(kernels->name) check_strain_moments(*kernels, columns);
}

BOOST_AUTO_TEST_CASE(every_generation_integrates_the_same_stiffness_in_closed_form_or_by_points) {
  const auto nodes = eight_tetrahedra(0.0), bowed = eight_tetrahedra(0.05);
  Eigen::Array<double, batch, 1> volume, plain_volume;
  const Kernels& plain = *runnable_kernels().back();
  const Stiffnesses expected = straight(plain, nodes, plain_volume),
                    expected_bowed = curved(plain, bowed);

  // The rule is exact on straight elements, so that both ways agree to round-off.
  BOOST_TEST(near(curved(plain, nodes), expected, 1e-13));
  BOOST_TEST((expected - expected_bowed).norm() > 1e-3 * expected.norm());
  for (int lane = 0; lane < batch; ++lane) {
    const Eigen::Matrix<double, 3, 4> p = nodes.row(lane).head<12>().reshaped(3, 4);
    const Eigen::Matrix3d edges = p.rightCols<3>().colwise() - p.col(0);
    BOOST_TEST(plain_volume[lane] == edges.determinant() / 6.0,
               boost::test_tools::tolerance(1e-14));
  }
  for (const Kernels* kernels : runnable_kernels()) {
    BOOST_TEST_CONTEXT(kernels->name) {
      BOOST_TEST(near(straight(*kernels, nodes, volume), expected, 1e-14));
      BOOST_TEST(near(volume.matrix(), plain_volume.matrix(), 1e-14));
      BOOST_TEST(near(curved(*kernels, bowed), expected_bowed, 1e-13));
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
