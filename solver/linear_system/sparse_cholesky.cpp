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

cholmod_sparse view(const LowerTriangle& A) {
  return view(A.size(), A.column_start, A.row, &A.value, lower_half);
}

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

}  // namespace

std::vector<std::int64_t> dissection_order(const BlockMatrix& graph) {
  Session session;
  const std::vector<std::int64_t> start(graph.row_start.begin(), graph.row_start.end());
  const std::vector<std::int64_t> row(graph.column.begin(), graph.column.end());
  auto A = view(graph.nodes(), start, row, nullptr, lower_half);
  std::vector<std::int64_t> order(graph.nodes()), parent(graph.nodes()), member(graph.nodes());
  const auto parts = cholmod_l_nested_dissection(&A, nullptr, 0, order.data(), parent.data(),
                                                 member.data(), &session.common);
  session.check(parts >= 0, "ordering");
  return order;
}

struct SparseCholesky::Impl {
  Session session;
  std::vector<std::int64_t> order;
  cholmod_factor* factor = nullptr;
  ~Impl() { cholmod_l_free_factor(&factor, &session.common); }
};

SparseCholesky::SparseCholesky(const LowerTriangle& A, std::vector<std::int64_t> order)
    : impl_(std::make_unique<Impl>()) {
  impl_->order = std::move(order);
  auto viewed = view(A);
  impl_->factor =
      cholmod_l_analyze_p(&viewed, impl_->order.data(), nullptr, 0, &impl_->session.common);
  impl_->session.check(impl_->factor != nullptr, "analysis");
}

SparseCholesky::~SparseCholesky() = default;

std::int64_t SparseCholesky::factorise(const LowerTriangle& A) {
  auto viewed = view(A);
  auto& session = impl_->session;
  const bool done = cholmod_l_factorize(&viewed, impl_->factor, &session.common);
  if (session.common.status == CHOLMOD_NOT_POSDEF)
    return static_cast<const std::int64_t*>(impl_->factor->Perm)[impl_->factor->minor];
  session.check(done, "factorisation");
  return vanished_pivot(A, *impl_->factor);
}

Eigen::MatrixXd SparseCholesky::solve(const Eigen::MatrixXd& b) const {
  auto viewed = view(b);
  auto& session = impl_->session;
  cholmod_dense* x = cholmod_l_solve(CHOLMOD_A, impl_->factor, &viewed, &session.common);
  session.check(x != nullptr, "solution");
  Eigen::MatrixXd result =
      Eigen::Map<Eigen::MatrixXd>(static_cast<double*>(x->x), b.rows(), b.cols());
  cholmod_l_free_dense(&x, &session.common);
  return result;
}

}  // namespace crossgrain
