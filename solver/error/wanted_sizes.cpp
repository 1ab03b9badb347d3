// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/wanted_sizes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

using Eigen::Index;

// From one mesh to the next edges shrink to no less than a quarter, for the shares were estimated
// on the coarse one, and grow to no more than twice.
constexpr double least_shrinking = 0.25;
constexpr double most_growth = 2.0;
constexpr double order_of_share = 4.0;
constexpr double dimensions = 3.0;

/// Lengths by which edges are to be multiplied when one element's wish is worth `level`.
Eigen::ArrayXd ratios_at(const Eigen::ArrayXd& wish, double level) {
  return (level * wish).cwiseMax(least_shrinking).cwiseMin(most_growth);
}

double error_at(const Eigen::ArrayXd& shares, const Eigen::ArrayXd& ratios) {
  return (shares * ratios.pow(order_of_share)).sum();
}

double tetrahedra_at(const Eigen::ArrayXd& ratios) { return ratios.pow(-dimensions).sum(); }

/// The greatest level that is good enough, between none and all of the change allowed.
template <class GoodEnough>
double greatest_level(double low, double high, const GoodEnough& good_enough) {
  for (int step = 0; step < 60; ++step) {
    const double middle = std::sqrt(low * high);
    (good_enough(middle) ? low : high) = middle;
  }
  return low;
}

/// One point, the finest, for every cube of space about as large as its own size.
std::vector<SizedPoint> thinned(const std::vector<SizedPoint>& points) {
  std::map<std::array<long, 4>, SizedPoint> kept;
  for (const SizedPoint& point : points) {
    const int level = static_cast<int>(std::floor(std::log2(point.size)));
    const double cube = std::exp2(level);
    std::array<long, 4> key{level, 0, 0, 0};
    for (int k = 0; k < 3; ++k) key[k + 1] = std::lround(std::floor(point.point[k] / cube));
    const auto [at, is_new] = kept.emplace(key, point);
    if (!is_new && point.size < at->second.size) at->second = point;
  }
  std::vector<SizedPoint> result;
  for (const auto& [key, point] : kept) result.push_back(point);
  return result;
}

}  // namespace

double mean_edge(const TetrahedronMesh& mesh, Index tetrahedron) {
  double sum = 0.0;
  for (const auto& [a, b] : edges_of_tetrahedron)
    sum += (mesh.nodes.col(mesh.tetrahedra(a, tetrahedron)) -
            mesh.nodes.col(mesh.tetrahedra(b, tetrahedron)))
               .norm();
  return sum / 6.0;
}

std::vector<SizedPoint> wanted_sizes(const TetrahedronMesh& mesh, const Eigen::VectorXd& shares,
                                     const RefinementAim& aim) {
  // For the least sum of elements at a given sum of shares, an element's edges go with its share to
  // the power of -1 / (order + dimensions).
  const double floor_of_share = 1e-12 * shares.maxCoeff();
  const Eigen::ArrayXd wish =
      shares.array().cwiseMax(floor_of_share).pow(-1.0 / (order_of_share + dimensions));
  const double low = least_shrinking / wish.maxCoeff(), high = most_growth / wish.minCoeff();
  double level = greatest_level(
      low, high, [&](double at) { return error_at(shares, ratios_at(wish, at)) <= aim.error; });
  if (tetrahedra_at(ratios_at(wish, level)) > aim.most_tetrahedra)
    level = 1.0 / greatest_level(1.0 / high, 1.0 / low, [&](double at) {
              return tetrahedra_at(ratios_at(wish, 1.0 / at)) <= aim.most_tetrahedra;
            });
  const Eigen::ArrayXd ratios = ratios_at(wish, level);
  std::vector<SizedPoint> points;
  for (Index t = 0; t < ratios.size(); ++t) {
    Eigen::Vector3d middle = Eigen::Vector3d::Zero();
    for (int k = 0; k < 4; ++k) middle += 0.25 * mesh.nodes.col(mesh.tetrahedra(k, t));
    points.push_back({middle, ratios[t] * mean_edge(mesh, t)});
  }
  return thinned(points);
}

}  // namespace crossgrain
