// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cholesky/sparse_cholesky.h"

#include <Eigen/Cholesky>
#include <Eigen/SparseCholesky>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/assembly/stiffness_assembly.h"
#include "solver/blocks/free_directions.h"
#include "solver/cholesky/dense_front.h"
#include "solver/kernels/kernels.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// The stiffness of a pipe between all nodes, one end held.
struct HeldPipe {
  Pipe pipe;
  StiffnessAssembly assembly;
  FreeDirections free;
  Blocks<double> K;

  explicit HeldPipe(int across, const Eigen::Vector3d& build = {0.3, 0.5, 1.0})
      : pipe(across), assembly(pipe.mesh, stiffness_rule(), 1), free(held()) {
    assembly.assemble(pipe.field(printed_nylon(), build));
    free.project(pattern(), assembly.matrix(), K, 1);
  }

  const BlockPattern& pattern() const { return assembly.pattern(); }

  FreeDirections held() const {
    std::vector<FreeDirections::HeldNode> nodes;
    for (const auto& [node, directions] : pipe.held)
      nodes.push_back({assembly.order().rank[node],
                       Eigen::Matrix3d::Identity() - directions * directions.transpose()});
    return {pipe.mesh.node_count(), nodes};
  }
};

/// For Eigen: both halves, scalars.
Eigen::SparseMatrix<double> scalar_matrix(const BlockPattern& pattern, const Blocks<double>& A) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < pattern.nodes(); ++i)
    for (auto k = pattern.row_start[i]; k < pattern.row_start[i + 1]; ++k)
      for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c) {
          const int row = 3 * i + r, column = 3 * pattern.column[k] + c;
          entries.emplace_back(row, column, A[k](r, c));
          if (pattern.column[k] != i) entries.emplace_back(column, row, A[k](r, c));
        }
  Eigen::SparseMatrix<double> full(3 * pattern.nodes(), 3 * pattern.nodes());
  full.setFromTriplets(entries.begin(), entries.end());
  return full;
}

Eigen::MatrixXd arbitrary(Eigen::Index rows, int columns) {
  Eigen::MatrixXd values(rows, columns);
  for (Eigen::Index i = 0; i < rows; ++i)
    for (int c = 0; c < columns; ++c) values(i, c) = std::sin(7.0 * static_cast<double>(i * i) + c);
  return values;
}

template <class Stored>
Eigen::MatrixXd solved(const SparseCholesky<Stored>& cholesky, const Eigen::MatrixXd& b) {
  const auto columns = static_cast<int>(b.cols());
  NodeVectors<Stored> force(b.rows() / 3, columns), moved = force;
  for (Eigen::Index i = 0; i < force.nodes(); ++i)
    for (int c = 0; c < columns; ++c)
      force.at(i, c).template head<3>() = b.col(c).segment<3>(3 * i).template cast<Stored>();
  cholesky.solve(force, moved);
  Eigen::MatrixXd x(b.rows(), columns);
  for (Eigen::Index i = 0; i < moved.nodes(); ++i)
    for (int c = 0; c < columns; ++c)
      x.col(c).segment<3>(3 * i) = moved.at(i, c).template head<3>().template cast<double>();
  return x;
}

/// A chain of nodes, each tied to the next `reach` ones, in pieces that do not touch each other.
BlockPattern chains(int pieces, int length, int reach) {
  BlockPattern pattern{{0}, {}};
  for (int i = 0; i < pieces * length; ++i) {
    for (int j = i; j <= i + reach && j / length == i / length; ++j) pattern.column.push_back(j);
    pattern.row_start.push_back(std::ssize(pattern.column));
  }
  return pattern;
}

Blocks<double> dominant(const BlockPattern& pattern) {
  Blocks<double> A;
  A.resize(pattern.size());
  for (int i = 0; i < pattern.nodes(); ++i)
    for (auto k = pattern.row_start[i]; k < pattern.row_start[i + 1]; ++k) {
      if (pattern.column[k] == i)
        A[k] = 40.0 * Eigen::Matrix3d::Identity();
      else
        A[k] << 1, 2, -1, 0, 1.5, 0.5 * (i % 3), -0.2, 0.7, -1;
    }
  return A;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(sparse_cholesky)

// Eigen's own factorisation is the reference: another order, another method.
BOOST_AUTO_TEST_CASE(a_stiffness_is_solved_as_by_another_library_for_one_to_four_vectors) {
  const HeldPipe held(2);
  const Eigen::SimplicialLLT<Eigen::SparseMatrix<double>> reference(
      scalar_matrix(held.pattern(), held.K));
  SparseCholesky<double> twofold(held.pattern(), 2);
  SparseCholesky<float> single(held.pattern(), 2);
  BOOST_TEST(twofold.factorise(held.K) == -1);
  BOOST_TEST(single.factorise(held.K) == -1);

  for (int columns = 1; columns <= most_columns; ++columns) {
    const Eigen::MatrixXd b = arbitrary(3 * held.pattern().nodes(), columns);
    const Eigen::MatrixXd expected = reference.solve(b);
    // Round-off grown by the condition: 1e-13 and 3e-7 were found.
    BOOST_TEST(near(solved(twofold, b), expected, 1e-12));
    BOOST_TEST(near(solved(single, b), expected, 5e-6));
    BOOST_TEST(!near(solved(single, b), expected, 1e-9));
  }
}

BOOST_AUTO_TEST_CASE(another_set_of_values_takes_the_place_of_the_first) {
  const HeldPipe first(1, {0, 0, 1}), second(1, {1, 0, 0});
  const Eigen::MatrixXd b = arbitrary(3 * first.pattern().nodes(), 1);
  SparseCholesky<double> reused(first.pattern(), 1), fresh(first.pattern(), 1);
  reused.factorise(first.K);
  const Eigen::MatrixXd before = solved(reused, b);
  reused.factorise(second.K);
  fresh.factorise(second.K);

  BOOST_TEST(near(solved(reused, b), solved(fresh, b), 0.0));
  BOOST_TEST(!near(before, solved(fresh, b), 1e-3));
}

BOOST_AUTO_TEST_CASE(threads_do_not_change_a_bit) {
  const HeldPipe held(3);
  const Eigen::MatrixXd b = arbitrary(3 * held.pattern().nodes(), 2);
  SparseCholesky<float> one(held.pattern(), 1), two(held.pattern(), 2);
  one.factorise(held.K);
  two.factorise(held.K);

  const Eigen::MatrixXd x = solved(one, b);
  BOOST_TEST(x.norm() > 0.0);
  BOOST_TEST(near(solved(two, b), x, 0.0));
}

BOOST_AUTO_TEST_CASE(parts_that_do_not_touch_are_solved_each_for_itself) {
  const auto pattern = chains(5, 30, 4);
  const auto A = dominant(pattern);
  const Eigen::MatrixXd b = arbitrary(3 * pattern.nodes(), 1);
  const Eigen::SimplicialLLT<Eigen::SparseMatrix<double>> reference(scalar_matrix(pattern, A));
  SparseCholesky<double> cholesky(pattern, 2);

  BOOST_TEST(cholesky.factorise(A) == -1);
  BOOST_TEST(near(solved(cholesky, b), Eigen::MatrixXd(reference.solve(b)), 1e-13));
}

BOOST_AUTO_TEST_CASE(a_node_without_stiffness_is_named) {
  const auto pattern = chains(4, 30, 4);
  for (const int weak : {0, 47, 119}) {
    auto A = dominant(pattern);
    A[pattern.row_start[weak]](1, 1) = 0.0;
    SparseCholesky<double> cholesky(pattern, 2);
    BOOST_TEST(cholesky.factorise(A) == weak);
  }
}

BOOST_AUTO_TEST_CASE(what_vanishes_to_round_off_is_not_taken_for_stiffness) {
  const auto pattern = chains(1, 2, 1);
  Blocks<double> A;
  A.resize(pattern.size());
  for (int k = 0; k < 3; ++k) A[k] = Eigen::Matrix3d::Identity();
  A[1] *= -1.0;  // a spring between two nodes that nothing holds
  A[2](0, 0) += 1e-15;
  SparseCholesky<double> cholesky(pattern, 1);
  BOOST_TEST(cholesky.factorise(A) >= 0);
  A[2] *= 1.001;
  BOOST_TEST(cholesky.factorise(A) == -1);
}

BOOST_AUTO_TEST_CASE(operations_and_bytes_are_those_of_a_dense_matrix_where_all_nodes_touch) {
  constexpr int nodes = 40;
  const SparseCholesky<float> cholesky(chains(1, nodes, nodes), 1);
  constexpr double n = 3 * nodes;
  // Sum of k^2, k = 1..n; the square is kept whole.
  BOOST_TEST(cholesky.operations() == n * (n + 1) * (2 * n + 1) / 6);
  BOOST_TEST(cholesky.bytes_of_factor() == 4 * n * n);
}

BOOST_AUTO_TEST_CASE(what_no_machine_could_hold_is_refused_before_it_is_tried) {
  BOOST_CHECK_EXCEPTION(
      require_memory(1e18, "the sparse Cholesky factor"), std::runtime_error,
      [](const std::runtime_error& error) {
        return std::string(error.what())
            .starts_with("the sparse Cholesky factor needs 9.31e+08 GiB of memory");
      });
  require_memory(1e6, "a small one");
}

BOOST_AUTO_TEST_CASE(the_first_dissection_foretells_the_operations_within_a_factor_of_two) {
  for (const int across : {2, 4}) {
    const Pipe pipe(across);
    const StiffnessAssembly assembly(pipe.mesh, stiffness_rule(), 1);
    const auto& corners = assembly.corner_pattern();
    const double ratio =
        expected_operations(corners) / SparseCholesky<float>(corners, 1).operations();
    BOOST_TEST(ratio > 0.5);
    BOOST_TEST(ratio < 2.0);
  }
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(dense_fronts)

// Wider than a panel, higher than two tiles, so that every way of cutting occurs.
BOOST_AUTO_TEST_CASE(columns_are_eliminated_as_by_a_complete_factorisation) {
  constexpr int height = 1000, width = 450, below = height - width;
  Eigen::MatrixXd A = arbitrary(height, height);
  A = (0.5 * (A + A.transpose())).eval() + 2.0 * height * Eigen::MatrixXd::Identity(height, height);
  const Eigen::MatrixXd L = A.llt().matrixL();
  const Eigen::MatrixXd rest =
      L.bottomRightCorner(below, below) * L.bottomRightCorner(below, below).transpose();

  Eigen::MatrixXd columns = A.leftCols(width), left = A.bottomRightCorner(below, below);
  BOOST_TEST(eliminate_columns(height, width, columns.data(), left.data()) == -1);

  const auto lower = [](const Eigen::MatrixXd& M) {
    return Eigen::MatrixXd(M.triangularView<Eigen::Lower>());
  };
  // Sums of a thousand terms.
  BOOST_TEST(near(lower(columns), L.leftCols(width), 1e-13));
  BOOST_TEST(near(lower(left), lower(rest), 1e-13));
}

BOOST_AUTO_TEST_CASE(the_first_bad_column_is_named_whichever_panel_it_is_in) {
  for (const int bad : {0, 100, 191, 192, 299}) {
    Eigen::MatrixXd columns = Eigen::MatrixXd::Identity(300, 300);
    columns(bad, bad) = -1.0;
    BOOST_TEST(eliminate_columns(300, 300, columns.data(), nullptr) == bad);
  }
}

BOOST_AUTO_TEST_SUITE_END()
