// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cholesky/sparse_cholesky.h"

#include <algorithm>
#include <atomic>
#include <numeric>
#include <type_traits>

#include "solver/cholesky/blas.h"
#include "solver/cholesky/dense_front.h"
#include "solver/cholesky/shared_out.h"
#include "solver/kernels/kernels.h"

namespace crossgrain {
namespace {

// Round-off leaves 1e-14 or so of a diagonal that ought to vanish; a beam ten thousand times as
// long as thick still keeps more than this.
constexpr double smallest_pivot = 1e-13;

// Rows or columns of L that one thread takes of a large group when it solves.
constexpr int piece_of_vector = 240;

template <class Scalar>
const FactorColumns<Scalar>& factor_columns(int columns) {
  if constexpr (std::is_same_v<Scalar, float>)
    return kernels().factor_columns_single[columns - 1];
  else
    return kernels().factor_columns_double[columns - 1];
}

/// What a group leaves to those after it: lower triangle of its rows below the own ones.
using Remainder = std::unique_ptr<double[]>;

}  // namespace

/// One group on its way from the matrix to L.
template <class Stored>
class SparseCholesky<Stored>::Front {
 public:
  Front(const SparseCholesky& of, int group)
      : of_(of),
        group_(group),
        width_(3 * of.elimination_.width(group)),
        height_(3 * of.elimination_.height(group)),
        columns_(std::make_unique<double[]>(static_cast<std::size_t>(width_) * height_)),
        rest_(std::make_unique<double[]>(static_cast<std::size_t>(below()) * below())) {}

  /// The matrix's own numbers in the group's columns.
  void add_matrix(const Blocks<double>& A) {
    const auto& e = of_.elimination_;
    const int* rows = e.rows_of(group_);
    for (int column = 0; column < e.width(group_); ++column) {
      const int position = rows[column];
      int row = 0;
      for (auto k = of_.first_entry_[position]; k < of_.first_entry_[position + 1]; ++k) {
        const Entry& entry = of_.entries_[k];
        while (rows[row] != entry.row) ++row;
        const auto block = A[entry.block];
        for (int c = 0; c < 3; ++c)
          for (int r = 0; r < 3; ++r)
            at(3 * row + r, 3 * column + c) = entry.transposed ? block(c, r) : block(r, c);
      }
    }
    diagonal_.resize(width_);
    for (int k = 0; k < width_; ++k) diagonal_[k] = at(k, k);
  }

  void add_remainder(int child, const double* values) {
    const auto& e = of_.elimination_;
    const int size = e.height(child) - e.width(child);
    const int* place = e.row_in_parent.data() + e.first_row[child] + e.width(child);
    for (int column = 0; column < size; ++column)
      for (int c = 0; c < 3; ++c) {
        const double* from = values + std::ptrdiff_t{3} * size * (3 * column + c);
        const int to_column = 3 * place[column] + c;
        // Rows below and in the block of the diagonal, nothing of which lies above it in the
        // parent.
        double* to = to_column < width_
                         ? &at(0, to_column)
                         : rest_.get() + std::ptrdiff_t{below()} * (to_column - width_) - width_;
        for (int row = column; row < size; ++row)
          for (int r = 0; r < 3; ++r) to[3 * place[row] + r] += from[3 * row + r];
      }
  }

  /// @return the position of a node at which the matrix is not positive definite, or -1.
  int eliminate() {
    int bad = eliminate_columns(height_, width_, columns_.get(), rest_.get());
    for (int k = 0; k < width_ && bad < 0; ++k)
      if (!(at(k, k) * at(k, k) > smallest_pivot * diagonal_[k])) bad = k;
    return bad < 0 ? -1 : of_.elimination_.rows_of(group_)[bad / 3];
  }

  void store(Stored* L) const {
    std::transform(columns_.get(), columns_.get() + static_cast<std::size_t>(width_) * height_, L,
                   [](double value) { return static_cast<Stored>(value); });
  }

  Remainder take_remainder() { return std::move(rest_); }

 private:
  int below() const { return height_ - width_; }
  double& at(int row, int column) {
    return columns_[row + static_cast<std::ptrdiff_t>(column) * height_];
  }

  const SparseCholesky& of_;
  int group_, width_, height_;
  Remainder columns_, rest_;
  std::vector<double> diagonal_;
};

/// Right-hand sides on their way through L and back. Every group has room for all its rows.
template <class Stored>
class SparseCholesky<Stored>::Solution {
 public:
  Solution(const SparseCholesky& of, int columns)
      : of_(of),
        columns_(columns),
        kernels_(factor_columns<Stored>(columns)),
        stride_(3 * std::ssize(of.elimination_.rows)),
        rows_(stride_ * columns),
        solved_(std::size_t{3} * columns * of.elimination_.node_at.size()) {}

  /// @param b  3 x columns of a node.
  void forward(int group, const NodeVectors<Stored>& b) {
    const auto& e = of_.elimination_;
    const int width = e.width(group), rest = 3 * (e.height(group) - width);
    Stored* x = rows_of(group);
    for (int c = 0; c < columns_; ++c) {
      Stored* to = x + c * stride_;
      for (int k = 0; k < width; ++k)
        for (int r = 0; r < 3; ++r) *to++ = b.at(e.node_at[e.first_column[group] + k], c)[r];
      std::fill(to, to + rest, Stored{0});
    }
    for (int k = e.first_child[group]; k < e.first_child[group + 1]; ++k)
      add_remainder(e.children[k], x);
    kernels_.divide(L(group), height(group), 3 * width, x, stride_);
    shared_out(rest, piece_of_vector, [&](int row, int rows) {
      const int at = 3 * width + row;
      kernels_.subtract(L(group) + at, height(group), rows, 3 * width, x, x + at, stride_);
    });
  }

  void backward(int group, NodeVectors<Stored>& solution) {
    const auto& e = of_.elimination_;
    const int width = e.width(group);
    Stored* x = rows_of(group);
    for (int r = width; r < e.height(group); ++r)
      for (int c = 0; c < columns_; ++c)
        std::copy_n(solved(e.rows_of(group)[r], c), 3, x + 3 * r + c * stride_);
    shared_out(3 * width, piece_of_vector, [&](int column, int own_columns) {
      kernels_.subtract_transposed(L(group) + 3 * width + std::ptrdiff_t{height(group)} * column,
                                   height(group), height(group) - 3 * width, own_columns,
                                   x + 3 * width, x + column, stride_);
    });
    kernels_.divide_transposed(L(group), height(group), 3 * width, x, stride_);
    for (int k = 0; k < width; ++k)
      for (int c = 0; c < columns_; ++c) {
        const int position = e.first_column[group] + k;
        const Stored* from = x + 3 * k + c * stride_;
        std::copy_n(from, 3, solved(position, c));
        std::copy_n(from, 3, solution.at(e.node_at[position], c).data());
      }
  }

 private:
  int height(int group) const { return 3 * of_.elimination_.height(group); }
  const Stored* L(int group) const {
    return of_.values_.get() + of_.elimination_.first_value[group];
  }
  Stored* rows_of(int group) { return rows_.data() + 3 * of_.elimination_.first_row[group]; }
  Stored* solved(int position, int column) {
    return solved_.data() + 3 * (std::ptrdiff_t{columns_} * position + column);
  }

  void add_remainder(int child, Stored* to) {
    const auto& e = of_.elimination_;
    for (auto r = e.first_row[child] + e.width(child); r < e.first_row[child + 1]; ++r)
      for (int c = 0; c < columns_; ++c)
        for (int k = 0; k < 3; ++k)
          to[3 * e.row_in_parent[r] + k + c * stride_] += rows_[3 * r + k + c * stride_];
  }

  const SparseCholesky& of_;
  int columns_;
  const FactorColumns<Stored>& kernels_;
  std::ptrdiff_t stride_;
  std::vector<Stored> rows_;
  std::vector<Stored> solved_;  ///< by position, 3 x columns each
};

template <class Stored>
SparseCholesky<Stored>::SparseCholesky(const BlockPattern& pattern, int threads)
    : elimination_(eliminated(pattern)), schedule_(elimination_, threads) {
  require_memory(bytes_of_factor(), "the sparse Cholesky factor");
  blas::stay_on_one_thread();
  list_entries(pattern);
}

template <class Stored>
void SparseCholesky<Stored>::list_entries(const BlockPattern& pattern) {
  const auto nodes = pattern.nodes();
  std::vector<int> position(nodes);
  for (Eigen::Index p = 0; p < nodes; ++p) position[elimination_.node_at[p]] = static_cast<int>(p);
  const auto for_each_block = [&](const auto& work) {
    for (Eigen::Index i = 0; i < nodes; ++i)
      for (auto k = pattern.row_start[i]; k < pattern.row_start[i + 1]; ++k) {
        const auto [first, last] = std::minmax(position[i], position[pattern.column[k]]);
        work(first, Entry{k, last, last != position[i]});
      }
  };
  first_entry_.assign(nodes + 1, 0);
  for_each_block([&](int column, const Entry&) { ++first_entry_[column + 1]; });
  std::partial_sum(first_entry_.begin(), first_entry_.end(), first_entry_.begin());
  entries_.resize(first_entry_.back());
  std::vector<std::int64_t> next(first_entry_.begin(), first_entry_.end() - 1);
  for_each_block([&](int column, const Entry& entry) { entries_[next[column]++] = entry; });
  for (Eigen::Index p = 0; p < nodes; ++p)
    std::sort(entries_.begin() + first_entry_[p], entries_.begin() + first_entry_[p + 1],
              [](const Entry& a, const Entry& b) { return a.row < b.row; });
}

template <class Stored>
std::int64_t SparseCholesky<Stored>::factorise(const Blocks<double>& A) {
  if (!values_) values_ = std::make_unique_for_overwrite<Stored[]>(elimination_.values());
  std::vector<Remainder> remainders(elimination_.groups());
  std::atomic<int> bad = -1;
  schedule_.upwards([&](int group) {
    if (bad >= 0) return;
    Front front(*this, group);
    front.add_matrix(A);
    for (int k = elimination_.first_child[group]; k < elimination_.first_child[group + 1]; ++k) {
      const int child = elimination_.children[k];
      front.add_remainder(child, remainders[child].get());
      remainders[child].reset();
    }
    if (const int position = front.eliminate(); position >= 0) {
      bad = position;
      return;
    }
    front.store(values_.get() + elimination_.first_value[group]);
    remainders[group] = front.take_remainder();
  });
  return bad < 0 ? -1 : elimination_.node_at[bad];
}

template <class Stored>
void SparseCholesky<Stored>::solve(const NodeVectors<Stored>& b, NodeVectors<Stored>& x) const {
  Solution solution(*this, b.columns());
  schedule_.upwards([&](int group) { solution.forward(group, b); });
  schedule_.downwards([&](int group) { solution.backward(group, x); });
}

template class SparseCholesky<float>;
template class SparseCholesky<double>;

}  // namespace crossgrain
