// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

#include <utility>

#include "solver/kernels/kernels.h"
#include "solver/kernels/wide_vectors.h"

namespace crossgrain::CROSSGRAIN_GENERATION {

#if defined(__AVX512F__)
constexpr int vector_bytes = 64;
#else
constexpr int vector_bytes = 32;
#endif

/// Number of the node in the middle of an edge.
constexpr int middle[4][4] = {{0, 4, 6, 7}, {4, 1, 5, 8}, {6, 5, 2, 9}, {7, 8, 9, 3}};

template <class Vector, int... lane>
inline auto side_by_side(const Vector& a, const Vector& b, std::integer_sequence<int, lane...>) {
  return __builtin_shufflevector(a, b, lane...);
}

/// Four lanes of each node of every fourth element.
template <int lanes>
inline typename Wide<float, lanes>::Vector every_fourth(const float* x, std::int64_t stride,
                                                        const int* node) {
  if constexpr (lanes == 4) {
    return load_wide<float, 4>(x + stride * node[0]);
  } else {
    constexpr int half = lanes / 2;
    return side_by_side(every_fourth<half>(x, stride, node),
                        every_fourth<half>(x, stride, node + half),
                        std::make_integer_sequence<int, lanes>{});
  }
}

/// Lanes 4 b + (p, q, r, s) of each quarter b: below 4 of a, from 4 of b.
template <int p, int q, int r, int s, class Vector, int... lane>
inline Vector in_fours(const Vector& a, const Vector& b, std::integer_sequence<int, lane...>) {
  constexpr int lanes = sizeof...(lane);
  constexpr int pick[4] = {p, q, r, s};
  return __builtin_shufflevector(
      a, b, ((lane & ~3) + (pick[lane & 3] & 3) + (pick[lane & 3] < 4 ? 0 : lanes))...);
}

/// Four by four in each quarter: component k of element l <-> lane k of l.
template <int lanes, class Vector>
inline void transpose_fours(Vector v[4]) {
  constexpr auto all = std::make_integer_sequence<int, lanes>{};
  const Vector a = in_fours<0, 4, 1, 5>(v[0], v[1], all), b = in_fours<2, 6, 3, 7>(v[0], v[1], all),
               c = in_fours<0, 4, 1, 5>(v[2], v[3], all), d = in_fours<2, 6, 3, 7>(v[2], v[3], all);
  v[0] = in_fours<0, 1, 4, 5>(a, c, all);
  v[1] = in_fours<2, 3, 6, 7>(a, c, all);
  v[2] = in_fours<0, 1, 4, 5>(b, d, all);
  v[3] = in_fours<2, 3, 6, 7>(b, d, all);
}

template <int first, class Vector, int... lane>
inline auto lanes_from(const Vector& v, std::integer_sequence<int, lane...>) {
  return __builtin_shufflevector(v, v, (first + lane)...);
}

/// Adds four lanes to the node of every fourth element.
template <int lanes, class To>
inline void add_every_fourth(const typename Wide<float, lanes>::Vector& value, const int* node,
                             const To& to) {
  if constexpr (lanes == 4) {
    float* y = to(node[0]);
    *reinterpret_cast<typename Wide<float, 4>::Unaligned*>(y) = load_wide<float, 4>(y) + value;
  } else {
    constexpr int half = lanes / 2;
    constexpr auto all = std::make_integer_sequence<int, half>{};
    add_every_fourth<half>(lanes_from<0>(value, all), node, to);
    add_every_fourth<half>(lanes_from<half>(value, all), node + half, to);
  }
}

/// Forces f on the ten nodes that displacements u cause. The strain is linear in an element and
/// known from its corners; g are the gradients of barycentric coordinates 1 to 3 times the root of
/// a twentieth of the volume.
template <class Vector>
inline void element_forces(const Vector u[10][3], const Vector g[3][3], const float* C,
                           Vector f[10][3]) {
  Vector stress[4][6], total[6] = {};
#pragma GCC unroll 4
  for (int v = 0; v < 4; ++v) {
    // Derivatives by barycentric coordinates at corner v, those of coordinate 0 taken off.
    Vector d[3][3];
#pragma GCC unroll 3
    for (int k = 0; k < 3; ++k) {
      const Vector zero = v == 0 ? 3 * u[0][k] : 4 * u[middle[0][v]][k] - u[0][k];
#pragma GCC unroll 3
      for (int i = 1; i < 4; ++i)
        d[i - 1][k] = (i == v ? 3 * u[i][k] : 4 * u[middle[i][v]][k] - u[i][k]) - zero;
    }
    const auto slope = [&](int k, int l) {
      return d[0][k] * g[0][l] + d[1][k] * g[1][l] + d[2][k] * g[2][l];
    };
    const Vector strain[6] = {slope(0, 0),
                              slope(1, 1),
                              slope(2, 2),
                              slope(1, 2) + slope(2, 1),
                              slope(0, 2) + slope(2, 0),
                              slope(0, 1) + slope(1, 0)};
#pragma GCC unroll 6
    for (int s = 0; s < 6; ++s) {
      Vector sum = C[6 * s] * strain[0];
#pragma GCC unroll 5
      for (int t = 1; t < 6; ++t) sum += C[6 * s + t] * strain[t];
      stress[v][s] = sum;
      total[s] += sum;
    }
  }
#pragma GCC unroll 10
  for (int a = 0; a < 10; ++a)
    for (int k = 0; k < 3; ++k) f[a][k] = Vector{};
  constexpr int voigt[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
#pragma GCC unroll 4
  for (int v = 0; v < 4; ++v) {
    Vector s[6];
#pragma GCC unroll 6
    for (int t = 0; t < 6; ++t) s[t] = stress[v][t] + total[t];
#pragma GCC unroll 3
    for (int k = 0; k < 3; ++k) {
      Vector on[4];
#pragma GCC unroll 3
      for (int i = 0; i < 3; ++i)
        on[i + 1] = s[voigt[k][0]] * g[i][0] + s[voigt[k][1]] * g[i][1] + s[voigt[k][2]] * g[i][2];
      on[0] = -(on[1] + on[2] + on[3]);
#pragma GCC unroll 4
      for (int i = 0; i < 4; ++i) {
        if (i == v) {
          f[i][k] += 3 * on[i];
        } else {
          f[i][k] -= on[i];
          f[middle[i][v]][k] += 4 * on[i];
        }
      }
    }
  }
}

template <int columns>
void straight_product(const StraightGroups& groups, std::int64_t begin, std::int64_t end,
                      std::int64_t own_end, const float* x, float* y, float* beyond) {
  constexpr int lanes = vector_bytes / sizeof(float);
  using Vector = typename Wide<float, lanes>::Vector;
  constexpr std::int64_t stride = 4 * columns;
  for (std::int64_t group = begin; group < end; ++group) {
    const float* C = groups.elastic + 36 * groups.material[group];
    for (int lane = 0; lane < group_size; lane += lanes) {
      const int* nodes = groups.nodes + 10 * group_size * group + lane;
      const float* gradients = groups.gradients + 9 * group_size * group + lane;
      Vector g[3][3];
      for (int i = 0; i < 3; ++i)
        for (int k = 0; k < 3; ++k)
          g[i][k] = load_wide<float, lanes>(gradients + group_size * (3 * i + k));
      for (int c = 0; c < columns; ++c) {
        Vector u[10][3], f[10][3];
        for (int a = 0; a < 10; ++a) {
          Vector v[4];
          for (int k = 0; k < 4; ++k)
            v[k] = every_fourth<lanes>(x + 4 * c, stride, nodes + group_size * a + k);
          transpose_fours<lanes>(v);
          for (int k = 0; k < 3; ++k) u[a][k] = v[k];
        }
        element_forces(u, g, C, f);
        const auto to = [&](int node) {
          return 4 * c + (node < own_end ? y + stride * node : beyond + stride * (node - own_end));
        };
        for (int a = 0; a < 10; ++a) {
          Vector v[4] = {f[a][0], f[a][1], f[a][2], Vector{}};
          transpose_fours<lanes>(v);
          for (int k = 0; k < 4; ++k) add_every_fourth<lanes>(v[k], nodes + group_size * a + k, to);
        }
      }
    }
  }
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
