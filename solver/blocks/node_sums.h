// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// x . y, column by column; summed in double precision, over pieces that do not depend on the
/// number of threads.
template <class Scalar>
Eigen::ArrayXd sums_of_products(const NodeVectors<Scalar>& x, const NodeVectors<Scalar>& y,
                                int threads);

/// result = y + factor x, each column with its own factor; result may be x or y.
template <class Scalar>
void add_scaled(const Eigen::ArrayXd& factor, const NodeVectors<Scalar>& x,
                const NodeVectors<Scalar>& y, NodeVectors<Scalar>& result, int threads);

}  // namespace crossgrain
