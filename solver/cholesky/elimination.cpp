// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cholesky/elimination.h"

#include <cholmod.h>

#include <numeric>
#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

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
    // Up to so many nodes groups are joined at the price of some zeros: fewer and wider ones keep
    // the dense kernels busy. Measured.
    common.nrelax[0] = 2;
    common.nrelax[1] = 6;
    common.nrelax[2] = 16;
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

/// CHOLMOD's view of the pattern, which it does not change. The upper rows are the columns of the
/// lower half.
cholmod_sparse view(const BlockPattern& pattern, const std::vector<std::int64_t>& column) {
  cholmod_sparse A{};
  A.nrow = A.ncol = pattern.nodes();
  A.nzmax = column.size();
  A.p = const_cast<std::int64_t*>(pattern.row_start.data());
  A.i = const_cast<std::int64_t*>(column.data());
  A.stype = -1;
  A.itype = CHOLMOD_LONG;
  A.xtype = CHOLMOD_PATTERN;
  A.dtype = CHOLMOD_DOUBLE;
  A.sorted = A.packed = true;
  return A;
}

std::vector<std::int64_t> dissection_order(Session& session, cholmod_sparse& A) {
  std::vector<std::int64_t> order(A.nrow), parent(A.nrow), member(A.nrow);
  const auto parts = cholmod_l_nested_dissection(&A, nullptr, 0, order.data(), parent.data(),
                                                 member.data(), &session.common);
  session.check(parts >= 0, "ordering");
  return order;
}

template <class To>
std::vector<To> copied(const void* from, std::size_t count) {
  const auto* begin = static_cast<const std::int64_t*>(from);
  return {begin, begin + count};
}

void find_parents(Elimination& e) {
  std::vector<int> group_of(e.node_at.size());
  for (Eigen::Index g = 0; g < e.groups(); ++g)
    std::fill(group_of.begin() + e.first_column[g], group_of.begin() + e.first_column[g + 1],
              static_cast<int>(g));
  e.first_child.assign(e.groups() + 1, 0);
  for (Eigen::Index g = 0; g < e.groups(); ++g) {
    if (e.height(g) == e.width(g)) continue;
    e.parent[g] = group_of[e.rows_of(g)[e.width(g)]];
    ++e.first_child[e.parent[g] + 1];
  }
  std::partial_sum(e.first_child.begin(), e.first_child.end(), e.first_child.begin());
  e.children.resize(e.first_child.back());
  std::vector<int> next(e.first_child.begin(), e.first_child.end() - 1);
  for (Eigen::Index g = 0; g < e.groups(); ++g)
    if (e.parent[g] >= 0) e.children[next[e.parent[g]]++] = static_cast<int>(g);
}

/// Both lists ascend: one walk through the parent's rows finds all.
void find_rows_in_parents(Elimination& e) {
  e.row_in_parent.assign(e.rows.size(), -1);
  for (Eigen::Index g = 0; g < e.groups(); ++g) {
    if (e.parent[g] < 0) continue;
    const int* of_parent = e.rows_of(e.parent[g]);
    int place = 0;
    for (auto r = e.first_row[g] + e.width(g); r < e.first_row[g + 1]; ++r) {
      while (of_parent[place] != e.rows[r]) ++place;
      e.row_in_parent[r] = place;
    }
  }
}

// Measured on bowls, shells and thick pipes; the separator itself, as a dense matrix, takes 9.
constexpr double operations_per_cubed_separator = 405.0;

}  // namespace

double Elimination::operations(Eigen::Index group) const {
  double sum = 0.0;
  for (int k = 0; k < 3 * width(group); ++k) {
    const double left = 3.0 * height(group) - k;
    sum += left * left;
  }
  return sum;
}

double Elimination::operations() const {
  double sum = 0.0;
  for (Eigen::Index g = 0; g < groups(); ++g) sum += operations(g);
  return sum;
}

Elimination eliminated(const BlockPattern& pattern) {
  Session session;
  const std::vector<std::int64_t> column(pattern.column.begin(), pattern.column.end());
  auto A = view(pattern, column);
  auto order = dissection_order(session, A);
  cholmod_factor* L = cholmod_l_analyze_p(&A, order.data(), nullptr, 0, &session.common);
  session.check(L != nullptr, "analysis");

  Elimination e;
  e.node_at = copied<int>(L->Perm, L->n);
  e.first_column = copied<int>(L->super, L->nsuper + 1);
  e.first_row = copied<std::int64_t>(L->pi, L->nsuper + 1);
  e.rows = copied<int>(L->s, L->ssize);
  cholmod_l_free_factor(&L, &session.common);

  e.parent.assign(e.first_column.size() - 1, -1);
  e.first_value.push_back(0);
  for (Eigen::Index g = 0; g < e.groups(); ++g)
    e.first_value.push_back(e.first_value.back() + std::int64_t{9} * e.width(g) * e.height(g));
  find_parents(e);
  find_rows_in_parents(e);
  return e;
}

double expected_operations(const BlockPattern& pattern) {
  Session session;
  const std::vector<std::int64_t> column(pattern.column.begin(), pattern.column.end());
  auto A = view(pattern, column);
  std::vector<std::int64_t> half(A.nrow);
  const auto separator =
      static_cast<double>(cholmod_l_bisect(&A, nullptr, 0, false, half.data(), &session.common));
  session.check(separator >= 0.0, "dissection");
  return operations_per_cubed_separator * separator * separator * separator;
}

}  // namespace crossgrain
