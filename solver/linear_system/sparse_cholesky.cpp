// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/sparse_cholesky.h"

#include <cblas.h>
#include <cholmod.h>

#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

// Round-off leaves 1e-14 or so of a diagonal that ought to vanish; a beam ten thousand times as
// long as thick still keeps more than this.
constexpr double smallest_pivot = 1e-13;

/// CHOLMOD's workspace, ended with its owner.
struct Session {
  cholmod_common common;
  Session() {
    cholmod_l_start(&common);
    common.print = 0;
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_GIVEN;
    common.postorder = true;
    // Two threads of the matrix kernels made the factorisation slower, not faster: its fronts are
    // too small to share.
    openblas_set_num_threads(1);
  }
  ~Session() { cholmod_l_finish(&common); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  void check(bool done, const char* what) const {
    if (done && common.status >= CHOLMOD_OK) return;
    throw std::runtime_error(std::string("the sparse Cholesky solver failed in ") + what +
                             (common.status == CHOLMOD_OUT_OF_MEMORY
                                  ? ": out of memory; use a coarser mesh"
                                  : ": status " + std::to_string(common.status)));
  }
};

/// CHOLMOD's view of our arrays, which it does not change.
cholmod_sparse view(std::int64_t size, const std::vector<std::int64_t>& start,
                    const std::vector<std::int64_t>& row, const std::vector<double>* value,
                    int stored_half) {
  cholmod_sparse A{};
  A.nrow = A.ncol = size;
  A.nzmax = row.size();
  A.p = const_cast<std::int64_t*>(start.data());
  A.i = const_cast<std::int64_t*>(row.data());
  A.x = value ? const_cast<double*>(value->data()) : nullptr;
  A.stype = stored_half;
  A.itype = CHOLMOD_LONG;
  A.xtype = value ? CHOLMOD_REAL : CHOLMOD_PATTERN;
  A.dtype = CHOLMOD_DOUBLE;
  A.sorted = A.packed = true;
  return A;
}
constexpr int lower_half = -1;

cholmod_dense view(const Eigen::MatrixXd& b) {
  cholmod_dense B{};
  B.nrow = b.rows();
  B.ncol = b.cols();
  B.nzmax = b.size();
  B.d = b.rows();
  B.x = const_cast<double*>(b.data());
  B.xtype = CHOLMOD_REAL;
  B.dtype = CHOLMOD_DOUBLE;
  return B;
}

/// The lower triangle by scalars: the upper rows of blocks are its columns.
struct LowerTriangle {
  std::vector<std::int64_t> column_start, row;
  std::vector<double> value;

  explicit LowerTriangle(const BlockPattern& pattern) : column_start{0} {
    for (Eigen::Index i = 0; i < pattern.nodes(); ++i)
      for (int c = 0; c < 3; ++c) {
        for (int r = c; r < 3; ++r) row.push_back(3 * i + r);
        for (auto k = pattern.row_start[i] + 1; k < pattern.row_start[i + 1]; ++k)
          for (int r = 0; r < 3; ++r) row.push_back(std::int64_t{3} * pattern.column[k] + r);
        column_start.push_back(std::ssize(row));
      }
    value.resize(row.size());
  }

  void fill(const BlockPattern& pattern, const Blocks<double>& A) {
    double* next = value.data();
    for (Eigen::Index i = 0; i < pattern.nodes(); ++i)
      for (int c = 0; c < 3; ++c) {
        const auto diagonal = pattern.row_start[i];
        for (int r = c; r < 3; ++r) *next++ = A[diagonal](c, r);
        for (auto k = diagonal + 1; k < pattern.row_start[i + 1]; ++k)
          for (int r = 0; r < 3; ++r) *next++ = A[k](c, r);
      }
  }

  cholmod_sparse view() const {
    return crossgrain::view(std::ssize(column_start) - 1, column_start, row, &value, lower_half);
  }
};

/// Row of the matrix at which elimination left next to nothing of the diagonal, or -1.
/// @param L  supernodal.
std::int64_t vanished_pivot(const LowerTriangle& A, const cholmod_factor& L) {
  const auto* row_of = static_cast<const std::int64_t*>(L.Perm);
  const auto* first_column = static_cast<const std::int64_t*>(L.super);
  const auto* rows = static_cast<const std::int64_t*>(L.pi);
  const auto* values = static_cast<const std::int64_t*>(L.px);
  const auto* x = static_cast<const double*>(L.x);
  for (std::size_t s = 0; s < L.nsuper; ++s) {
    const auto height = rows[s + 1] - rows[s];
    for (auto k = first_column[s]; k < first_column[s + 1]; ++k) {
      const double pivot = x[values[s] + (k - first_column[s]) * (height + 1)];
      // The diagonal comes first in each column of A.
      if (!(pivot * pivot > smallest_pivot * A.value[A.column_start[row_of[k]]])) return row_of[k];
    }
  }
  return -1;
}

/// Elimination order of the rows: node by node as the graph of nodes is dissected.
std::vector<std::int64_t> dissection_order(Session& session, const BlockPattern& pattern) {
  const std::vector<std::int64_t> column(pattern.column.begin(), pattern.column.end());
  auto A = view(pattern.nodes(), pattern.row_start, column, nullptr, lower_half);
  std::vector<std::int64_t> order(pattern.nodes()), parent(order.size()), member(order.size());
  const auto parts = cholmod_l_nested_dissection(&A, nullptr, 0, order.data(), parent.data(),
                                                 member.data(), &session.common);
  session.check(parts >= 0, "ordering");
  std::vector<std::int64_t> rows;
  rows.reserve(3 * order.size());
  for (const auto node : order)
    for (int r = 0; r < 3; ++r) rows.push_back(3 * node + r);
  return rows;
}

}  // namespace

struct SparseCholesky::Impl {
  const BlockPattern& pattern;
  Session session;
  LowerTriangle lower;
  std::vector<std::int64_t> order;
  cholmod_factor* factor = nullptr;

  explicit Impl(const BlockPattern& given)
      : pattern(given), lower(given), order(dissection_order(session, given)) {}
  ~Impl() { cholmod_l_free_factor(&factor, &session.common); }
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;
};

SparseCholesky::SparseCholesky(const BlockPattern& pattern)
    : impl_(std::make_unique<Impl>(pattern)) {
  auto viewed = impl_->lower.view();
  impl_->factor =
      cholmod_l_analyze_p(&viewed, impl_->order.data(), nullptr, 0, &impl_->session.common);
  impl_->session.check(impl_->factor != nullptr, "analysis");
}

SparseCholesky::~SparseCholesky() = default;

std::int64_t SparseCholesky::factorise(const Blocks<double>& A) {
  impl_->lower.fill(impl_->pattern, A);
  auto viewed = impl_->lower.view();
  auto& session = impl_->session;
  const bool done = cholmod_l_factorize(&viewed, impl_->factor, &session.common);
  if (session.common.status == CHOLMOD_NOT_POSDEF)
    return static_cast<const std::int64_t*>(impl_->factor->Perm)[impl_->factor->minor] / 3;
  session.check(done, "factorisation");
  const auto row = vanished_pivot(impl_->lower, *impl_->factor);
  return row < 0 ? -1 : row / 3;
}

void SparseCholesky::solve(const NodeVectors<double>& b, NodeVectors<double>& x) const {
  Eigen::MatrixXd packed(3 * b.nodes(), b.columns());
  for (Eigen::Index i = 0; i < b.nodes(); ++i)
    for (int c = 0; c < b.columns(); ++c) packed.col(c).segment<3>(3 * i) = b.at(i, c).head<3>();
  cholmod_dense viewed = view(packed);
  auto& session = impl_->session;
  cholmod_dense* solution = cholmod_l_solve(CHOLMOD_A, impl_->factor, &viewed, &session.common);
  session.check(solution != nullptr, "solution");
  const auto* values = static_cast<const double*>(solution->x);
  for (int c = 0; c < b.columns(); ++c)
    for (Eigen::Index i = 0; i < b.nodes(); ++i)
      x.at(i, c).head<3>() = Eigen::Map<const Eigen::Vector3d>(values + 3 * (b.nodes() * c + i));
  cholmod_l_free_dense(&solution, &session.common);
}

SupernodalFactor SparseCholesky::take_single() {
  auto& session = impl_->session;
  const cholmod_factor& L = *impl_->factor;
  const auto copied = [](const void* from, std::size_t count) {
    const auto* begin = static_cast<const std::int64_t*>(from);
    return std::vector<std::int64_t>(begin, begin + count);
  };
  SupernodalFactor single(
      {copied(L.Perm, L.n), copied(L.super, L.nsuper + 1), copied(L.pi, L.nsuper + 1),
       copied(L.px, L.nsuper + 1), copied(L.s, L.ssize)},
      static_cast<const double*>(L.x));
  session.check(cholmod_l_change_factor(CHOLMOD_PATTERN, true, true, true, true, impl_->factor,
                                        &session.common),
                "giving memory back");
  return single;
}

double SparseCholesky::bytes_of_factor() const {
  return 8.0 * static_cast<double>(impl_->factor->xsize);
}

double SparseCholesky::operations() const { return impl_->session.common.fl; }

}  // namespace crossgrain
