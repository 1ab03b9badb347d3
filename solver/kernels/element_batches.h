// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

#include "solver/kernels/kernels.h"

namespace crossgrain::CROSSGRAIN_GENERATION {

/// One number of each element of a batch.
typedef double Eight __attribute__((vector_size(8 * batch)));

inline Eight load(const double* from, int i) {
  Eight value;
  __builtin_memcpy(&value, from + batch * i, sizeof value);
  return value;
}

inline void store(double* to, int i, const Eight& value) {
  __builtin_memcpy(to + batch * i, &value, sizeof value);
}

constexpr int ends[6][2] = {{0, 1}, {1, 2}, {2, 0}, {0, 3}, {1, 3}, {2, 3}};

/// C times the strain of a displacement (Voigt, engineering shear) whose component j has gradient
/// g: T[v][j].
inline void stress_of(const Eight* C, const Eight* g, Eight T[6][3]) {
  for (int v = 0; v < 6; ++v) {
    T[v][0] = C[6 * v + 0] * g[0] + C[6 * v + 4] * g[2] + C[6 * v + 5] * g[1];
    T[v][1] = C[6 * v + 1] * g[1] + C[6 * v + 3] * g[2] + C[6 * v + 5] * g[0];
    T[v][2] = C[6 * v + 2] * g[2] + C[6 * v + 3] * g[1] + C[6 * v + 4] * g[0];
  }
}

/// B(i, j), column-major: the work of those stresses on displacements of component i, gradient g.
inline void work_on(const Eight* g, Eight T[6][3], Eight* B) {
  for (int j = 0; j < 3; ++j) {
    B[3 * j + 0] = g[0] * T[0][j] + g[2] * T[4][j] + g[1] * T[5][j];
    B[3 * j + 1] = g[1] * T[1][j] + g[2] * T[3][j] + g[0] * T[5][j];
    B[3 * j + 2] = g[2] * T[2][j] + g[1] * T[3][j] + g[0] * T[4][j];
  }
}

/// Rows of the inverse of the edges' matrix, times its determinant.
inline void cofactors(const Eight e[3][3], Eight g[3][3]) {
  for (int a = 0; a < 3; ++a) {
    const Eight* u = e[(a + 1) % 3];
    const Eight* v = e[(a + 2) % 3];
    for (int k = 0; k < 3; ++k)
      g[a][k] = u[(k + 1) % 3] * v[(k + 2) % 3] - u[(k + 2) % 3] * v[(k + 1) % 3];
  }
}

inline Eight dot(const Eight* u, const Eight* v) { return u[0] * v[0] + u[1] * v[1] + u[2] * v[2]; }

/// The blocks B_mn of linear shape functions, for both orders of m and n.
struct CornerBlocks {
  Eight value[4][4][9];

  void take(int m, int n, const Eight* B) {
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i) {
        value[m][n][i + 3 * j] = B[i + 3 * j];
        value[n][m][j + 3 * i] = B[i + 3 * j];
      }
  }
};

inline double weight(int a, int b) { return a == b ? 0.6 : -0.2; }

/// Integrals of products of barycentric coordinates, 1/20 and twice that for squares, turn the
/// blocks of linear functions into those of quadratic ones.
inline void quadratic_from_linear(const CornerBlocks& corner, double* K) {
  int pair = 0;
  for (int a = 0; a < 10; ++a)
    for (int b = a; b < 10; ++b, ++pair)
      for (int s = 0; s < 9; ++s) {
        Eight value;
        if (b < 4) {
          value = weight(a, b) * corner.value[a][b][s];
        } else if (a < 4) {
          const int i = ends[b - 4][0], j = ends[b - 4][1];
          value = weight(a, i) * corner.value[a][j][s] + weight(a, j) * corner.value[a][i][s];
        } else {
          const int i = ends[a - 4][0], j = ends[a - 4][1];
          const int k = ends[b - 4][0], l = ends[b - 4][1];
          value = 0.8 * ((i == k ? 2.0 : 1.0) * corner.value[j][l][s] +
                         (i == l ? 2.0 : 1.0) * corner.value[j][k][s] +
                         (j == k ? 2.0 : 1.0) * corner.value[i][l][s] +
                         (j == l ? 2.0 : 1.0) * corner.value[i][k][s]);
        }
        store(K, 9 * pair + s, value);
      }
}

inline void straight_stiffness(const double* nodes, const double* C, double* K, double* volume) {
  Eight elastic[36];
  for (int i = 0; i < 36; ++i) elastic[i] = load(C, i);
  Eight edge[3][3], g[4][3];
  for (int a = 0; a < 3; ++a)
    for (int k = 0; k < 3; ++k) edge[a][k] = load(nodes, 3 * (a + 1) + k) - load(nodes, k);
  cofactors(edge, &g[1]);
  const Eight six_volumes = dot(edge[0], g[1]);
  const Eight inverse = 1.0 / six_volumes;
  for (int k = 0; k < 3; ++k) {
    for (int a = 1; a < 4; ++a) g[a][k] *= inverse;
    g[0][k] = -(g[1][k] + g[2][k] + g[3][k]);
  }
  store(volume, 0, six_volumes / 6.0);

  CornerBlocks corner;
  for (int n = 0; n < 4; ++n) {
    Eight T[6][3], B[9], scaled[3];
    for (int k = 0; k < 3; ++k) scaled[k] = g[n][k] * (six_volumes / 6.0);
    stress_of(elastic, scaled, T);
    for (int m = 0; m <= n; ++m) {
      work_on(g[m], T, B);
      corner.take(m, n, B);
    }
  }
  quadratic_from_linear(corner, K);
}

/// C_ikjl M(k, l) for one pair of nodes: column-major 3x3 blocks.
inline void contract(const Eight* C, const Eight* M, double* K, int pair) {
  constexpr int voigt[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 3; ++i) {
      Eight value{};
      for (int l = 0; l < 3; ++l)
        for (int k = 0; k < 3; ++k) value += C[6 * voigt[i][k] + voigt[j][l]] * M[k + 3 * l];
      store(K, 9 * pair + i + 3 * j, value);
    }
}

/// Gradients of the ten shape functions times the root of the point's weight.
/// @return the Jacobian determinant.
inline Eight weighted_gradients(const double* nodes, const double* local, double weight,
                                double* gradients) {
  Eight jacobian[3][3] = {};
  for (int a = 0; a < 10; ++a)
    for (int d = 0; d < 3; ++d)
      for (int k = 0; k < 3; ++k) jacobian[d][k] += local[3 * a + d] * load(nodes, 3 * a + k);
  Eight g[3][3];
  cofactors(jacobian, g);
  const Eight determinant = dot(jacobian[0], g[0]);
  Eight scale;
  for (int e = 0; e < batch; ++e)
    scale[e] = determinant[e] > 0.0 ? __builtin_sqrt(weight / determinant[e]) : 0.0;
  for (int a = 0; a < 10; ++a)
    for (int k = 0; k < 3; ++k)
      store(gradients, 3 * a + k,
            scale *
                (local[3 * a] * g[0][k] + local[3 * a + 1] * g[1][k] + local[3 * a + 2] * g[2][k]));
  return determinant;
}

inline void curved_stiffness(const double* nodes, const double* C, int points,
                             const double* local_gradients, const double* weights, double* work,
                             double* K, double* least_jacobian) {
  Eight elastic[36];
  for (int i = 0; i < 36; ++i) elastic[i] = load(C, i);
  Eight least{};
  for (int q = 0; q < points; ++q) {
    const Eight determinant =
        weighted_gradients(nodes, local_gradients + 30 * q, weights[q], work + batch * 30 * q);
    least = q == 0 ? determinant : (determinant > least ? least : determinant);
  }
  store(least_jacobian, 0, least);
  int pair = 0;
  for (int a = 0; a < 10; ++a)
    for (int b = a; b < 10; ++b, ++pair) {
      Eight M[9] = {};
      for (int q = 0; q < points; ++q) {
        const double* at = work + batch * 30 * q;
        const Eight b0 = load(at, 3 * b), b1 = load(at, 3 * b + 1), b2 = load(at, 3 * b + 2);
        for (int k = 0; k < 3; ++k) {
          const Eight a_k = load(at, 3 * a + k);
          M[k] += a_k * b0;
          M[k + 3] += a_k * b1;
          M[k + 6] += a_k * b2;
        }
      }
      contract(elastic, M, K, pair);
    }
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
