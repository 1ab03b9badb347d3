// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/node_sums.h"

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

constexpr Eigen::Index pieces = 64;

}  // namespace

template <class Scalar>
Eigen::ArrayXd sums_of_products(const NodeVectors<Scalar>& x, const NodeVectors<Scalar>& y,
                                int threads) {
  Eigen::ArrayXXd partial = Eigen::ArrayXXd::Zero(x.columns(), pieces);
  in_parallel(pieces, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto piece = first; piece < last; ++piece) {
      const auto begin = x.nodes() * piece / pieces, end = x.nodes() * (piece + 1) / pieces;
      for (int c = 0; c < x.columns(); ++c) {
        Eigen::Vector4d sum = Eigen::Vector4d::Zero();
        for (auto i = begin; i < end; ++i)
          sum +=
              x.at(i, c).template cast<double>().cwiseProduct(y.at(i, c).template cast<double>());
        partial(c, piece) = sum.sum();
      }
    }
  });
  return partial.rowwise().sum();
}

template <class Scalar>
void add_scaled(const Eigen::ArrayXd& factor, const NodeVectors<Scalar>& x,
                const NodeVectors<Scalar>& y, NodeVectors<Scalar>& result, int threads) {
  in_parallel(x.nodes(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i)
      for (int c = 0; c < x.columns(); ++c)
        result.at(i, c) = y.at(i, c) + static_cast<Scalar>(factor[c]) * x.at(i, c);
  });
}

template Eigen::ArrayXd sums_of_products(const NodeVectors<float>&, const NodeVectors<float>&, int);
template Eigen::ArrayXd sums_of_products(const NodeVectors<double>&, const NodeVectors<double>&,
                                         int);
template void add_scaled(const Eigen::ArrayXd&, const NodeVectors<float>&,
                         const NodeVectors<float>&, NodeVectors<float>&, int);
template void add_scaled(const Eigen::ArrayXd&, const NodeVectors<double>&,
                         const NodeVectors<double>&, NodeVectors<double>&, int);

}  // namespace crossgrain
