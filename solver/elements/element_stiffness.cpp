// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/element_stiffness.h"

namespace crossgrain {

void add_gradient_products(PairBlocks& products, const TetrahedronGradients& gradients,
                           double weight) {
  const TetrahedronGradients weighted = weight * gradients;
  for (int a = 0, pair = 0; a < 10; ++a)
    for (int b = a; b < 10; ++b, ++pair)
      for (int l = 0; l < 3; ++l)
        for (int k = 0; k < 3; ++k) products(k + 3 * l, pair) += gradients(k, a) * weighted(l, b);
}

Eigen::Matrix<double, 9, 9> contraction(const Matrix6d& C) {
  constexpr int voigt[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  Eigen::Matrix<double, 9, 9> D;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      for (int k = 0; k < 3; ++k)
        for (int l = 0; l < 3; ++l) D(i + 3 * j, k + 3 * l) = C(voigt[i][k], voigt[j][l]);
  return D;
}

}  // namespace crossgrain
