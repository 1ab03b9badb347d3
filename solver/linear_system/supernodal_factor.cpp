// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/supernodal_factor.h"

#include <cblas.h>

namespace crossgrain {

SupernodalFactor::SupernodalFactor(Structure structure, const double* values)
    : structure_(std::move(structure)), values_(values, values + structure_.first_value.back()) {}

void SupernodalFactor::forward(std::int64_t group, float* y, int columns,
                               std::vector<float>& work) const {
  const auto width =
      static_cast<int>(structure_.first_column[group + 1] - structure_.first_column[group]);
  const auto height =
      static_cast<int>(structure_.first_row[group + 1] - structure_.first_row[group]);
  const float* L = values_.data() + structure_.first_value[group];
  float* own = y + structure_.first_column[group] * columns;
  const int below = height - width;
  work.resize(static_cast<std::size_t>(below) * columns);
  if (columns == 1) {
    cblas_strsv(CblasColMajor, CblasLower, CblasNoTrans, CblasNonUnit, width, L, height, own, 1);
    if (below > 0)
      cblas_sgemv(CblasColMajor, CblasNoTrans, below, width, 1.0F, L + width, height, own, 1, 0.0F,
                  work.data(), 1);
  } else {
    // Right-hand sides lie interleaved, row by row: L y is y^t L^t in column-major eyes.
    cblas_strsm(CblasColMajor, CblasRight, CblasLower, CblasTrans, CblasNonUnit, columns, width,
                1.0F, L, height, own, columns);
    if (below > 0)
      cblas_sgemm(CblasColMajor, CblasNoTrans, CblasTrans, columns, below, width, 1.0F, own,
                  columns, L + width, height, 0.0F, work.data(), columns);
  }
  const auto* rows = structure_.rows.data() + structure_.first_row[group] + width;
  for (int r = 0; r < below; ++r)
    for (int c = 0; c < columns; ++c) y[rows[r] * columns + c] -= work[r * columns + c];
}

void SupernodalFactor::backward(std::int64_t group, float* y, int columns,
                                std::vector<float>& work) const {
  const auto width =
      static_cast<int>(structure_.first_column[group + 1] - structure_.first_column[group]);
  const auto height =
      static_cast<int>(structure_.first_row[group + 1] - structure_.first_row[group]);
  const float* L = values_.data() + structure_.first_value[group];
  float* own = y + structure_.first_column[group] * columns;
  const int below = height - width;
  work.resize(static_cast<std::size_t>(below) * columns);
  const auto* rows = structure_.rows.data() + structure_.first_row[group] + width;
  for (int r = 0; r < below; ++r)
    for (int c = 0; c < columns; ++c) work[r * columns + c] = y[rows[r] * columns + c];
  if (columns == 1) {
    if (below > 0)
      cblas_sgemv(CblasColMajor, CblasTrans, below, width, -1.0F, L + width, height, work.data(), 1,
                  1.0F, own, 1);
    cblas_strsv(CblasColMajor, CblasLower, CblasTrans, CblasNonUnit, width, L, height, own, 1);
  } else {
    if (below > 0)
      cblas_sgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, columns, width, below, -1.0F,
                  work.data(), columns, L + width, height, 1.0F, own, columns);
    cblas_strsm(CblasColMajor, CblasRight, CblasLower, CblasNoTrans, CblasNonUnit, columns, width,
                1.0F, L, height, own, columns);
  }
}

void SupernodalFactor::solve(const NodeVectors<float>& b, NodeVectors<float>& x) const {
  const int columns = b.columns();
  const auto& row_of = structure_.row_of;
  std::vector<float> y(row_of.size() * columns), work;
  for (std::size_t k = 0; k < row_of.size(); ++k)
    for (int c = 0; c < columns; ++c) y[k * columns + c] = b.at(row_of[k] / 3, c)[row_of[k] % 3];
  const auto groups = std::ssize(structure_.first_column) - 1;
  for (std::int64_t group = 0; group < groups; ++group) forward(group, y.data(), columns, work);
  for (std::int64_t group = groups; group-- > 0;) backward(group, y.data(), columns, work);
  for (std::size_t k = 0; k < row_of.size(); ++k)
    for (int c = 0; c < columns; ++c) x.at(row_of[k] / 3, c)[row_of[k] % 3] = y[k * columns + c];
}

}  // namespace crossgrain
