// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

#include "solver/kernels/element_batches.h"

namespace crossgrain::CROSSGRAIN_GENERATION {

/// Strain of displacements u [10][3], Voigt with engineering shear, from gradients of the ten shape
/// functions.
inline void strain_from(const double* u, const double* gradients, Eight strain[6]) {
  Eight slope[3][3] = {};
  for (int a = 0; a < 10; ++a)
    for (int i = 0; i < 3; ++i) {
      const Eight here = load(u, 3 * a + i);
      for (int k = 0; k < 3; ++k) slope[i][k] += here * load(gradients, 3 * a + k);
    }
  for (int i = 0; i < 3; ++i) strain[i] = slope[i][i];
  strain[3] = slope[1][2] + slope[2][1];
  strain[4] = slope[0][2] + slope[2][0];
  strain[5] = slope[0][1] + slope[1][0];
}

inline void strain_moments(const StrainPoints& at, const double* nodes, int columns,
                           const double* u, double* work, double* moments, double* at_corners,
                           double* volume, double* least_jacobian) {
  double* gradients = work;
  double* strains = work + batch * 30 * at.count;
  double* roots = strains + batch * 6 * at.count;  // of the points' shares of the volume
  Eight least{}, total{};
  for (int q = 0; q < at.count; ++q) {
    const Eight determinant = weighted_gradients(nodes, at.local_gradients + 30 * q, at.weights[q],
                                                 gradients + batch * 30 * q);
    least = q == 0 ? determinant : (determinant > least ? least : determinant);
    const Eight share = at.weights[q] * determinant;
    total += share;
    Eight root;
    for (int e = 0; e < batch; ++e) root[e] = share[e] > 0.0 ? __builtin_sqrt(share[e]) : 1.0;
    store(roots, q, root);
  }
  store(volume, 0, total);
  store(least_jacobian, 0, least);
  for (int c = 0; c < columns; ++c) {
    Eight fitted[4][6] = {};
    for (int q = 0; q < at.count; ++q) {
      Eight strain[6];
      strain_from(u + batch * 30 * c, gradients + batch * 30 * q, strain);
      const Eight root = load(roots, q);
      for (int s = 0; s < 6; ++s) {
        store(strains, 6 * q + s, strain[s]);
        const Eight plain = strain[s] / root;
        for (int v = 0; v < 4; ++v) fitted[v][s] += at.fit[4 * q + v] * plain;
      }
    }
    for (int v = 0; v < 4; ++v)
      for (int s = 0; s < 6; ++s) store(at_corners, 24 * c + 6 * v + s, fitted[v][s]);
    for (int a = 0; a < 10; ++a) {
      Eight sums[18] = {};
      for (int q = 0; q < at.count; ++q) {
        Eight strain[6];
        for (int s = 0; s < 6; ++s) strain[s] = load(strains, 6 * q + s);
        for (int k = 0; k < 3; ++k) {
          const Eight gradient = load(gradients, 30 * q + 3 * a + k);
          for (int s = 0; s < 6; ++s) sums[6 * k + s] += gradient * strain[s];
        }
      }
      for (int s = 0; s < 18; ++s) store(moments, 180 * c + 18 * a + s, sums[s]);
    }
  }
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
