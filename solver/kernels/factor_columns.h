// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

#include <cstdint>

#include "solver/kernels/kernels.h"
#include "solver/kernels/wide_vectors.h"

namespace crossgrain::CROSSGRAIN_GENERATION {

constexpr int at_once = 6;  // columns of L in one pass over the vectors

/// Rows `row`.. of y -= A x, as many at a time as a vector holds. @return the first row left.
template <class Scalar, int vectors, int columns, int lanes>
inline std::int64_t subtract_rows(const Scalar* A, std::int64_t ld, std::int64_t row,
                                  std::int64_t rows, const Scalar (&x)[vectors][columns], Scalar* y,
                                  std::int64_t stride) {
  using Vector = typename Wide<Scalar, lanes>::Vector;
  for (; row + lanes <= rows; row += lanes) {
    Vector a[columns];
    for (int j = 0; j < columns; ++j) a[j] = load_wide<Scalar, lanes>(A + row + j * ld);
    for (int c = 0; c < vectors; ++c) {
      Scalar* to = y + row + c * stride;
      Vector sum = a[0] * x[c][0];
      for (int j = 1; j < columns; ++j) sum += a[j] * x[c][j];
      *reinterpret_cast<typename Wide<Scalar, lanes>::Unaligned*>(to) =
          load_wide<Scalar, lanes>(to) - sum;
    }
  }
  return row;
}

template <class Scalar, int vectors, int columns>
inline void subtract_columns(const Scalar* A, std::int64_t ld, std::int64_t rows, const Scalar* x,
                             Scalar* y, std::int64_t stride) {
  Scalar factor[vectors][columns];
  for (int c = 0; c < vectors; ++c)
    for (int j = 0; j < columns; ++j) factor[c][j] = x[j + c * stride];
  constexpr int lanes = 64 / sizeof(Scalar);
  auto row = subtract_rows<Scalar, vectors, columns, lanes>(A, ld, 0, rows, factor, y, stride);
  row = subtract_rows<Scalar, vectors, columns, 4>(A, ld, row, rows, factor, y, stride);
  subtract_rows<Scalar, vectors, columns, 1>(A, ld, row, rows, factor, y, stride);
}

/// Rows `row`.. of A^t x added to the sums of each column. @return the first row left.
template <class Scalar, int vectors, int columns, int lanes>
inline std::int64_t add_products(const Scalar* A, std::int64_t ld, std::int64_t row,
                                 std::int64_t rows, const Scalar* x, std::int64_t stride,
                                 Scalar (&total)[vectors][columns]) {
  using Vector = typename Wide<Scalar, lanes>::Vector;
  Vector sum[vectors][columns] = {};
  for (; row + lanes <= rows; row += lanes) {
    Vector a[columns];
    for (int j = 0; j < columns; ++j) a[j] = load_wide<Scalar, lanes>(A + row + j * ld);
    for (int c = 0; c < vectors; ++c) {
      const Vector v = load_wide<Scalar, lanes>(x + row + c * stride);
      for (int j = 0; j < columns; ++j) sum[c][j] += a[j] * v;
    }
  }
  for (int c = 0; c < vectors; ++c)
    for (int j = 0; j < columns; ++j)
      for (int lane = 0; lane < lanes; ++lane) total[c][j] += sum[c][j][lane];
  return row;
}

template <class Scalar, int vectors, int columns>
inline void subtract_transposed_columns(const Scalar* A, std::int64_t ld, std::int64_t rows,
                                        const Scalar* x, Scalar* y, std::int64_t stride) {
  Scalar total[vectors][columns] = {};
  constexpr int lanes = 64 / sizeof(Scalar);
  auto row = add_products<Scalar, vectors, columns, lanes>(A, ld, 0, rows, x, stride, total);
  row = add_products<Scalar, vectors, columns, 4>(A, ld, row, rows, x, stride, total);
  add_products<Scalar, vectors, columns, 1>(A, ld, row, rows, x, stride, total);
  for (int c = 0; c < vectors; ++c)
    for (int j = 0; j < columns; ++j) y[j + c * stride] -= total[c][j];
}

template <class Scalar, int vectors>
void subtract_product(const Scalar* A, std::int64_t ld, std::int64_t rows, std::int64_t columns,
                      const Scalar* x, Scalar* y, std::int64_t stride) {
  std::int64_t j = 0;
  for (; j + at_once <= columns; j += at_once)
    subtract_columns<Scalar, vectors, at_once>(A + j * ld, ld, rows, x + j, y, stride);
  for (; j < columns; ++j)
    subtract_columns<Scalar, vectors, 1>(A + j * ld, ld, rows, x + j, y, stride);
}

template <class Scalar, int vectors>
void subtract_transposed_product(const Scalar* A, std::int64_t ld, std::int64_t rows,
                                 std::int64_t columns, const Scalar* x, Scalar* y,
                                 std::int64_t stride) {
  std::int64_t j = 0;
  for (; j + at_once <= columns; j += at_once)
    subtract_transposed_columns<Scalar, vectors, at_once>(A + j * ld, ld, rows, x, y + j, stride);
  for (; j < columns; ++j)
    subtract_transposed_columns<Scalar, vectors, 1>(A + j * ld, ld, rows, x, y + j, stride);
}

template <class Scalar, int vectors>
void divide_by_triangle(const Scalar* L, std::int64_t ld, std::int64_t size, Scalar* x,
                        std::int64_t stride) {
  for (std::int64_t first = 0; first < size; first += at_once) {
    const std::int64_t end = first + at_once < size ? first + at_once : size;
    for (int c = 0; c < vectors; ++c) {
      Scalar* y = x + c * stride;
      for (auto j = first; j < end; ++j) {
        y[j] /= L[j + j * ld];
        for (auto i = j + 1; i < end; ++i) y[i] -= L[i + j * ld] * y[j];
      }
    }
    subtract_product<Scalar, vectors>(L + end + first * ld, ld, size - end, end - first, x + first,
                                      x + end, stride);
  }
}

template <class Scalar, int vectors>
void divide_by_transposed_triangle(const Scalar* L, std::int64_t ld, std::int64_t size, Scalar* x,
                                   std::int64_t stride) {
  for (std::int64_t first = (size - 1) / at_once * at_once; first >= 0; first -= at_once) {
    const std::int64_t end = first + at_once < size ? first + at_once : size;
    subtract_transposed_product<Scalar, vectors>(L + end + first * ld, ld, size - end, end - first,
                                                 x + end, x + first, stride);
    for (int c = 0; c < vectors; ++c) {
      Scalar* y = x + c * stride;
      for (auto j = end; j-- > first;) {
        for (auto i = j + 1; i < end; ++i) y[j] -= L[i + j * ld] * y[i];
        y[j] /= L[j + j * ld];
      }
    }
  }
}

template <class Scalar, int vectors>
constexpr FactorColumns<Scalar> factor_columns() {
  return {divide_by_triangle<Scalar, vectors>, divide_by_transposed_triangle<Scalar, vectors>,
          subtract_product<Scalar, vectors>, subtract_transposed_product<Scalar, vectors>};
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
