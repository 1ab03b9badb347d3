// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

#include <cstdint>

namespace crossgrain::CROSSGRAIN_GENERATION {

/// Four lanes side by side.
template <class Scalar>
struct Lanes;
template <>
struct Lanes<float> {
  typedef float Vector __attribute__((vector_size(16)));
  typedef float Unaligned __attribute__((vector_size(16), aligned(4)));
};
template <>
struct Lanes<double> {
  typedef double Vector __attribute__((vector_size(32)));
  typedef double Unaligned __attribute__((vector_size(32), aligned(8)));
};

template <class Scalar>
inline typename Lanes<Scalar>::Vector load(const Scalar* from) {
  return *reinterpret_cast<const typename Lanes<Scalar>::Unaligned*>(from);
}

template <class Scalar>
inline void store(Scalar* to, typename Lanes<Scalar>::Vector value) {
  *reinterpret_cast<typename Lanes<Scalar>::Unaligned*>(to) = value;
}

/// Lane k is the sum of the lanes of v_k; lane 3 is zero.
template <class Scalar>
inline typename Lanes<Scalar>::Vector sums(typename Lanes<Scalar>::Vector v0,
                                           typename Lanes<Scalar>::Vector v1,
                                           typename Lanes<Scalar>::Vector v2) {
  const typename Lanes<Scalar>::Vector zero{};
  const auto first =
      __builtin_shufflevector(v0, v1, 0, 4, 1, 5) + __builtin_shufflevector(v0, v1, 2, 6, 3, 7);
  const auto second =
      __builtin_shufflevector(v2, zero, 0, 4, 1, 5) + __builtin_shufflevector(v2, zero, 2, 6, 3, 7);
  return __builtin_shufflevector(first, second, 0, 1, 4, 5) +
         __builtin_shufflevector(first, second, 2, 3, 6, 7);
}

// Fourteen blocks: measured, 5 to 15 % faster than what the processor fetches by itself.
constexpr int ahead = 128;

template <class Scalar, int columns>
void block_rows(const std::int64_t* row_start, const int* column, const Scalar* blocks,
                std::int64_t begin, std::int64_t end, const Scalar* x, Scalar* y, Scalar* beyond) {
  using Vector = typename Lanes<Scalar>::Vector;
  constexpr std::int64_t stride = 4 * columns;
  const Vector zero{};
  for (std::int64_t i = begin; i < end; ++i) {
    Vector x_i[columns], y_i[columns];
    const Scalar* diagonal = blocks + 9 * row_start[i];
    const Vector d0 = load(diagonal), d1 = load(diagonal + 3), d2 = load(diagonal + 6);
    for (int c = 0; c < columns; ++c) {
      x_i[c] = load(x + stride * i + 4 * c);
      y_i[c] = d0 * x_i[c][0] + d1 * x_i[c][1] + d2 * x_i[c][2];
    }
    for (std::int64_t k = row_start[i] + 1; k < row_start[i + 1]; ++k) {
      const std::int64_t j = column[k];
      const Scalar* block = blocks + 9 * k;
      __builtin_prefetch(block + ahead);
      const Vector a0 = load(block), a1 = load(block + 3), a2 = load(block + 6);
      const Scalar* x_j = x + stride * j;
      Scalar* y_j = j < end ? y + stride * j : beyond + stride * (j - end);
      for (int c = 0; c < columns; ++c) {
        const Vector v = load(x_j + 4 * c);
        y_i[c] += a0 * v[0] + a1 * v[1] + a2 * v[2];
        store(y_j + 4 * c, load(y_j + 4 * c) + sums<Scalar>(a0 * x_i[c], a1 * x_i[c], a2 * x_i[c]));
      }
    }
    // The columns of a block were read with their neighbours in the fourth lane.
    for (int c = 0; c < columns; ++c)
      store(y + stride * i + 4 * c,
            load(y + stride * i + 4 * c) + __builtin_shufflevector(y_i[c], zero, 0, 1, 2, 4));
  }
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
