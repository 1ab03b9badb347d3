// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/elasticity/tensor.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {

// Element stiffness in two parts. Geometry: the integrals M_ab of grad N_a (x) grad N_b, 3x3 for
// each of the 55 pairs of nodes a <= b. Material: K_ab(i,j) = C_ikjl M_ab(k,l), a 9x9 contraction,
// so that a change of frame or constants leaves the geometry as it is.

constexpr int pairs_of_nodes = 55;
/// Column p: the 3x3 block of pair p, column-major.
using PairBlocks = Eigen::Matrix<double, 9, pairs_of_nodes>;

/// Number of the pair a <= b.
constexpr int pair_number(int a, int b) { return a * (19 - a) / 2 + b; }

/// Add weight * grad N_a (x) grad N_b to the blocks.
void add_gradient_products(PairBlocks& products, const TetrahedronGradients& gradients,
                           double weight);

/// C_ikjl with rows i + 3 j and columns k + 3 l.
/// @param C  6x6 [MPa], global axes, engineering shear.
Eigen::Matrix<double, 9, 9> contraction(const Matrix6d& C);

}  // namespace crossgrain
